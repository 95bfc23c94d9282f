using ClimateGuard.Plant;

namespace ClimateGuard.Enclosure;

/// <summary>What a rule said of a window that is still running.</summary>
/// <param name="Assessment">What it said.</param>
/// <param name="Onset">When it began to show, or null.</param>
public sealed record SeenNow(Assessment Assessment, DateTimeOffset? Onset);

/// <summary>One air handler under watch, with the zone it leads: the last days are what is usual, a window of now is judged against them.</summary>
/// <remarks>Keeps at most so many days as it was told; a day costs 12 kB for each sensor. Owned by one caller, not safe across threads.</remarks>
public sealed class WatchedUnit
{
    private readonly Cell cell;
    private readonly FindingLimits limits;
    private readonly int mostDays;
    private readonly Zone? zone;
    private readonly bool leads;
    private readonly List<HandlerDay> days = [];
    private readonly List<ZoneDay> zoneDays = [];
    private HandlerBaseline baseline = new([]);

    /// <summary>Begins without any day.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="handler">The air handler.</param>
    /// <param name="mostDays">How many days to keep, at least 2.</param>
    public WatchedUnit(Cell cell, AirHandler handler, int mostDays)
    {
        ArgumentNullException.ThrowIfNull(cell);
        ArgumentNullException.ThrowIfNull(handler);
        ArgumentOutOfRangeException.ThrowIfLessThan(mostDays, 2);
        (this.cell, Handler, this.mostDays) = (cell, handler, mostDays);
        limits = new FindingLimits(cell.Description.Policies);
        zone = cell.Zones.FirstOrDefault(z => z.AirHandlers.Contains(handler.Id));
        leads = zone is not null && zone.AirHandlers[0] == handler.Id;
    }

    /// <summary>The air handler.</summary>
    public AirHandler Handler { get; }

    /// <summary>How many days it knows.</summary>
    public int Days => days.Count;

    /// <summary>Takes a day that is over as one of those that are usual; the oldest is forgotten beyond the most.</summary>
    /// <param name="day">The day.</param>
    public void Learn(SignalFrame day)
    {
        ArgumentNullException.ThrowIfNull(day);
        var learned = new HandlerDay(new HandlerSignals(cell, Handler, day));
        days.Add(learned);
        if (leads) zoneDays.Add(new ZoneDay(new ZoneSignals(cell, zone!, day), [learned]));
        if (days.Count > mostDays) days.RemoveAt(0);
        if (zoneDays.Count > mostDays) zoneDays.RemoveAt(0);
        baseline = new HandlerBaseline([.. days]);
    }

    /// <summary>What the rules say of a window.</summary>
    /// <param name="window">The window.</param>
    /// <param name="wanted">Which causes to look for.</param>
    public IReadOnlyList<SeenNow> Judge(SignalFrame window, Func<FaultCause, bool> wanted)
    {
        ArgumentNullException.ThrowIfNull(window);
        ArgumentNullException.ThrowIfNull(wanted);
        var now = new HandlerDay(new HandlerSignals(cell, Handler, window));
        var signals = ZoneIn(window);
        var known = new HandlerCase(cell, now, baseline, limits, signals);
        var led = leads ? new ZoneCase(cell, new ZoneDay(signals!, [now]), [.. zoneDays], limits, known) : null;
        return [.. Assessments.Of(known, led, wanted).Select(a => new SeenNow(a, a.OnsetMinute is { } minute ? window.TimeOf(minute) : null))];
    }

    /// <summary>What moved first in a window.</summary>
    /// <param name="window">The window.</param>
    public IReadOnlyList<SignalOnset> MovedFirstIn(SignalFrame window) =>
        MovedFirst.Of(new UnitSignals(new HandlerSignals(cell, Handler, window), ZoneIn(window)), [.. days.Select(day => new UnitSignals(day.Signals, ZoneIn(day.Signals.Frame)))]);

    private ZoneSignals? ZoneIn(SignalFrame window) => zone is null ? null : new ZoneSignals(cell, zone, window);
}
