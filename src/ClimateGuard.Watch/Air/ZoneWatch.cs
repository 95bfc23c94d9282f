using ClimateGuard.Enclosure;
using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>Follows the air of one zone: its regime, and its excursions with the jobs they touch. Owned by the loop.</summary>
/// <remarks>It looks at the sensors of its zone and of the air handlers of that alone, so that a cell of a thousand zones costs a thousand small looks.</remarks>
internal sealed class ZoneWatch(Cell cell, Zone zone)
{
    private readonly int[] sensors = SensorsOf(cell, zone);
    private readonly Cell part = new(cell.Description with
    {
        Sensors = [.. SensorsOf(cell, zone).Select(index => cell.Sensors[index])],
        Zones = [zone],
        AirHandlers = [.. cell.Description.AirHandlers.Where(unit => zone.AirHandlers.Contains(unit.Id))],
        Machines = [],
        Parts = [],
    });

    private ExcursionCount count = new(zone.Band.Value);
    private readonly HashSet<TouchedJob> touched = [];
    private DateTimeOffset? told;
    private DateTimeOffset? takenTo;
    private Regime regime = Regime.Unknown;
    private DateTimeOffset? since;
    private double? error;

    public Zone Zone { get; } = zone;

    public ZoneSnapshot Snapshot => new(Zone.Id, regime, since, error, count.Open is { } open ? Now(open, null) : null);

    /// <summary>Goes on from the last excursion that an earlier worker told of; one that lasts is counted anew from the history, one that is over is not told again.</summary>
    public void GoOn(ZoneExcursion begun)
    {
        count = new ExcursionCount(Zone.Band.Value);
        touched.Clear();
        (told, takenTo) = (null, begun.End);
        if (begun.End is not null) return;
        count.GoOn(new ExcursionSpan(begun.Begin, begun.Begin, 0, 0));
        touched.UnionWith(begun.Jobs);
        (told, takenTo) = (begun.Begin, begun.Begin);
    }

    /// <summary>Goes on where the same zone stood under an earlier plant file.</summary>
    public void GoOn(ZoneWatch earlier)
    {
        (takenTo, told, regime, since, error) = (earlier.takenTo, earlier.told, earlier.regime, earlier.since, earlier.error);
        touched.UnionWith(earlier.touched);
        if (earlier.count.Open is { } open) count.GoOn(open);
    }

    /// <summary>The sensors it looks at, by their place in the cell.</summary>
    public IReadOnlyList<int> Sensors => sensors;

    /// <summary>A job came onto a machine of the zone.</summary>
    public void Touch(JobLoaded job)
    {
        if (count.Open is not null) Add(job);
    }

    /// <summary>Takes the minutes since the last time.</summary>
    /// <param name="minutes">Minutes of all sensors.</param>
    /// <param name="loaded">The jobs on the machines of the zone now.</param>
    /// <param name="moment">Now.</param>
    /// <param name="decisions">Where to tell.</param>
    public void Take(MinuteWindow minutes, IEnumerable<JobLoaded> loaded, DateTimeOffset moment, List<Decision> decisions)
    {
        var wanted = takenTo is { } taken ? (int)Math.Clamp((moment - taken).TotalMinutes, LiveSpan.QuickMinutes, minutes.Minutes) : minutes.Minutes;
        if (minutes.Before(moment, wanted, part, sensors) is not { } window) return;
        var signals = new ZoneSignals(part, Zone, window);
        if (signals.Error is not { } errors)
        {
            (regime, error) = (Regime.Unknown, null);
            return;
        }

        JobLoaded[] jobs = [.. loaded];
        for (var minute = 0; minute < errors.Length; minute++)
        {
            var at = window.TimeOf(minute);
            if (at < takenTo) continue;
            Take(at, errors[minute], jobs, moment, decisions);
        }

        takenTo = window.TimeOf(window.Minutes);
        TakeRegimes(Regimes.Of(signals), errors, window);
    }

    private void Take(DateTimeOffset minute, double value, JobLoaded[] loaded, DateTimeOffset moment, List<Decision> decisions)
    {
        var over = count.Take(minute, value);
        if (over is not null)
        {
            decisions.Add(new ExcursionTold(moment, Now(over, over.End)));
            touched.Clear();
            told = null;
        }

        if (count.Open is not { } open || told is not null) return;
        Array.ForEach(loaded, Add);
        told = open.Begin;
        decisions.Add(new ExcursionTold(moment, Now(open, null)));
    }

    private static int[] SensorsOf(Cell cell, Zone zone)
    {
        var roles = cell.Description.AirHandlers.Where(unit => zone.AirHandlers.Contains(unit.Id))
            .SelectMany(unit => PointRoles.All.Select(role => PointRoles.SensorOf(cell, unit, role))).ToHashSet();
        return
        [
            .. Enumerable.Range(0, cell.Sensors.Count).Where(index => roles.Contains(index)
                || cell.Sensors[index] is { Quantity: SensorQuantity.Temperature, Place: SensorPlace.Air, Machine: null } sensor && sensor.Zone == zone.Id),
        ];
    }

    private void Add(JobLoaded job)
    {
        if (job.Serial.Length > 0) touched.Add(new TouchedJob(job.Machine, job.Serial, job.Part, job.Operation ?? ""));
    }

    // The first minutes of a window cannot be judged, as a regime looks back.
    private void TakeRegimes(Regime[] regimes, double[] errors, SignalFrame window)
    {
        var newest = regimes[^1];
        var from = Array.FindLastIndex(regimes, other => other != newest) + 1;
        since = newest == regime && since is not null && from == 0 ? since : window.TimeOf(from);
        regime = newest;
        error = double.IsNaN(errors[^1]) ? null : errors[^1];
    }

    private ZoneExcursion Now(ExcursionSpan span, DateTimeOffset? end) => new(
        Zone.Id, span.Begin, end, span.PeakKelvins, span.DegreeMinutes,
        [.. touched.OrderBy(job => job.Machine, StringComparer.Ordinal).ThenBy(job => job.Serial, StringComparer.Ordinal)]);
}
