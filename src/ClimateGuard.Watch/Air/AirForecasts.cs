using ClimateGuard.Enclosure;
using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>The forecasts of all zones of a cell. Deterministic; owned by one thread at a time.</summary>
public sealed class AirForecasts
{
    /// <summary>The most zones of a cell that is forecast: each takes a few megabytes for what it has learned.</summary>
    public const int MostZones = 32;

    private readonly ZoneForecaster[] forecasters;
    private readonly AirCourse?[] courses;
    private readonly long[] takenTo;
    private readonly SetBackProgramme[] programmes;
    private readonly long[] statedFor;

    /// <summary>Begins with nothing known.</summary>
    /// <param name="cell">The cell.</param>
    public AirForecasts(Cell cell)
    {
        ArgumentNullException.ThrowIfNull(cell);
        Zones = cell.Zones.Count > MostZones ? [] : cell.Zones;
        var local = TimeZoneInfo.TryFindSystemTimeZoneById(cell.Description.TimeZone, out var found) ? found : TimeZoneInfo.Utc;

        // The costly fits take turns, so that no pass has to wait for those of all zones.
        forecasters = [.. Zones.Select((zone, place) => new ZoneForecaster(zone, new WorkCalendar(cell.Description.Policies.Shifts, local), place))];
        courses = new AirCourse?[forecasters.Length];
        takenTo = [.. forecasters.Select(_ => long.MinValue)];
        programmes = [.. Zones.Select(zone => new SetBackProgramme(zone, local))];
        statedFor = [.. forecasters.Select(_ => long.MinValue)];
    }

    /// <summary>The zones, in the order of the plant file; none where there are more than <see cref="MostZones"/>.</summary>
    public IReadOnlyList<Zone> Zones { get; }

    /// <summary>Up to when minutes were taken in every zone, or null.</summary>
    public DateTimeOffset? TakenTo => takenTo.Length == 0 || takenTo.Min() == long.MinValue ? null : DateTimeOffset.FromUnixTimeMilliseconds(takenTo.Min());

    /// <summary>What they are after days of the past.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="days">Frames of its past, oldest first.</param>
    public static AirForecasts Learned(Cell cell, IEnumerable<SignalFrame> days)
    {
        ArgumentNullException.ThrowIfNull(days);
        var forecasts = new AirForecasts(cell);
        foreach (var day in days) forecasts.Take([.. forecasts.Zones.Select(zone => new ZoneSignals(cell, zone, day))]);
        return forecasts;
    }

    /// <summary>Takes the minutes that are later than those taken before.</summary>
    /// <param name="signals">The signals of each zone, in order, in one frame.</param>
    public void Take(IReadOnlyList<ZoneSignals> signals)
    {
        ArgumentNullException.ThrowIfNull(signals);
        for (var z = 0; z < forecasters.Length; z++)
        {
            // The zone beside it is the next in the plant file, the first beside the last.
            var next = signals.Count > 1 ? signals[(z + 1) % signals.Count] : null;
            var news = false;
            foreach (var moment in ZoneMoments.Of(signals[z], next, programmes[z]))
            {
                if (moment.EpochMilliseconds <= takenTo[z]) continue;
                takenTo[z] = moment.EpochMilliseconds;
                StateFor(z, moment.EpochMilliseconds);
                news |= forecasters[z].Take(moment);
            }

            if (news) courses[z] = AirCourse.Of(forecasters[z].Latest);
        }
    }

    // What is stated reaches two days ahead, so once a day is enough.
    private void StateFor(int place, long epochMilliseconds)
    {
        var day = Math.DivRem(epochMilliseconds, (long)TimeSpan.FromDays(1).TotalMilliseconds).Quotient;
        if (day == statedFor[place] || Zones[place].SetBacks.Count == 0) return;
        statedFor[place] = day;
        forecasters[place].State(programmes[place].Around(DateTimeOffset.FromUnixTimeMilliseconds(epochMilliseconds)));
    }

    /// <summary>The forecast of a zone, by its place.</summary>
    public ZoneForecast LatestOf(int place) => forecasters[place].Latest;

    /// <summary>How well the forecasts of a zone did, by its place.</summary>
    public IReadOnlyList<ForecastScore> ScoresOf(int place) => forecasters[place].Scores();

    /// <summary>How the air of a zone is expected to move, or null when nothing better is known than that it stays.</summary>
    /// <param name="zone">Id of the zone.</param>
    public AirCourse? CourseOf(string zone)
    {
        for (var z = 0; z < courses.Length; z++)
        {
            if (Zones[z].Id == zone) return courses[z];
        }

        return null;
    }
}
