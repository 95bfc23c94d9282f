using ClimateGuard.Plant;

namespace ClimateGuard.Enclosure;

/// <summary>One window of one air handler before the rules: what was seen, what is usual, and the limits.</summary>
/// <param name="Cell">The cell.</param>
/// <param name="Day">The window.</param>
/// <param name="Baseline">What is usual, learned from other days.</param>
/// <param name="Limits">The limits.</param>
/// <param name="Zone">The zone it serves, or null.</param>
public sealed record HandlerCase(Cell Cell, HandlerDay Day, HandlerBaseline Baseline, FindingLimits Limits, ZoneSignals? Zone)
{
    /// <summary>Air of the zone minus its set point, in K, by minute, or null.</summary>
    public double[]? Error => Zone?.Error;

    /// <summary>A number of this window.</summary>
    internal double Number(string name, Func<HandlerSignals, double> work) => Day.Features.Of(name, () => work(Day.Signals));

    /// <summary>The signals of the window.</summary>
    public HandlerSignals Signals => Day.Signals;

    /// <summary>An assessment of this air handler with its component and words of the cause.</summary>
    internal Assessment About(FaultCause cause, IReadOnlyList<Evidence> evidence, IReadOnlyList<string> missing, int? onset = null) => new()
    {
        Cause = cause,
        Component = cause.Component,
        Words = cause.Name,
        Evidence = evidence,
        Missing = missing,
        OnsetMinute = onset,
        AirHandler = Signals.Handler.Id,
    };
}
