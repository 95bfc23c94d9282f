using ClimateGuard.Plant;

namespace ClimateGuard.Enclosure;

/// <summary>The days of one air handler and of the zone whose first air handler it is; each is judged against the others.</summary>
internal sealed class HandlerHistory
{
    private readonly Cell cell;
    private readonly IReadOnlyList<LocalDay> days;
    private readonly List<HandlerDay> handlerDays;
    private readonly List<ZoneSignals?> zones;
    private readonly List<ZoneDay> led;

    public HandlerHistory(Cell cell, AirHandler handler, IReadOnlyList<LocalDay> days)
    {
        this.cell = cell;
        this.days = days;
        var zone = cell.Zones.FirstOrDefault(z => z.AirHandlers.Contains(handler.Id));
        handlerDays = [.. days.Select(day => new HandlerDay(new HandlerSignals(cell, handler, day.Frame)))];
        zones = [.. days.Select(day => zone is null ? null : new ZoneSignals(cell, zone, day.Frame))];
        var leads = zone is not null && zone.AirHandlers[0] == handler.Id;
        led = leads ? [.. zones.Select((signals, i) => new ZoneDay(signals!, [handlerDays[i]]))] : [];
    }

    /// <summary>The findings of each day, the likeliest first.</summary>
    public IReadOnlyList<(DateOnly Date, IReadOnlyList<Finding> Findings)> Judge(FindingLimits limits, CausePriors priors) =>
        [.. days.Select((day, index) => (day.Date, Judge(index, limits, priors)))];

    private IReadOnlyList<Finding> Judge(int index, FindingLimits limits, CausePriors priors)
    {
        var baseline = new HandlerBaseline([.. handlerDays.Where((_, other) => other != index)]);
        var known = new HandlerCase(cell, handlerDays[index], baseline, limits, zones[index]);
        var zone = led.Count > 0 ? new ZoneCase(cell, led[index], [.. led.Where((_, other) => other != index)], limits, known) : null;
        var assessments = Assessments.Of(known, zone, static _ => true);
        var day = days[index];
        var ranked = CauseRanking.Of(assessments, priors);
        var moved = ranked.Any(f => f.Flagged) ? MovedFirst.Of(Of(index), [.. Enumerable.Range(0, days.Count).Where(other => other != index).Select(Of)]) : [];
        return [.. ranked.Select(finding => finding with
        {
            Day = day.Date,
            Onset = finding.Assessment.OnsetMinute is { } minute ? day.Frame.TimeOf(minute) : null,
            MovedFirst = finding.Flagged ? moved : [],
        })];
    }

    private UnitSignals Of(int index) => new(handlerDays[index].Signals, zones[index]);
}
