using ClimateGuard.Plant;

namespace ClimateGuard.Enclosure;

/// <summary>One window of one zone before the rules.</summary>
/// <param name="Cell">The cell.</param>
/// <param name="Day">The window.</param>
/// <param name="Others">The other days of the zone, from which what is usual is learned.</param>
/// <param name="Limits">The limits.</param>
/// <param name="Lead">Its first air handler in the same window.</param>
public sealed record ZoneCase(Cell Cell, ZoneDay Day, IReadOnlyList<ZoneDay> Others, FindingLimits Limits, HandlerCase Lead)
{
    /// <summary>The signals of the window.</summary>
    public ZoneSignals Signals => Day.Signals;

    /// <summary>A number of this window.</summary>
    internal double Number(string name, Func<ZoneSignals, double> work) => Day.Features.Of(name, () => work(Day.Signals));

    /// <summary>The same number of the other days.</summary>
    internal Usual Usually(string name, Func<ZoneSignals, double> work) => Usual.Of(Others.Select(day => day.Features.Of(name, () => work(day.Signals))));

    /// <summary>An assessment of this zone.</summary>
    internal Assessment About(FaultCause cause, IReadOnlyList<Evidence> evidence, IReadOnlyList<string> missing, int? onset = null) => new()
    {
        Cause = cause,
        Component = cause.Component,
        Words = cause.Name,
        Evidence = evidence,
        Missing = missing,
        OnsetMinute = onset,
        AirHandler = Signals.Handlers.Count > 0 ? Signals.Handlers[0].Handler.Id : null,
        Zone = Signals.Zone.Id,
    };
}
