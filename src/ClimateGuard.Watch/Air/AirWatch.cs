using ClimateGuard.Enclosure;
using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>Watches the air of a running cell: minutes of every sensor, a pass every few minutes of event time. Deterministic; owned by the loop.</summary>
public sealed partial class AirWatch
{
    private const long MostBytesOfDays = 64L << 20;
    private const int MostDays = 14;
    private const int LeastMinutes = 120;
    private const int LeastMinutesOfDay = 360;
    private const int WithoutHandlersMinutes = 120;
    private static readonly TimeSpan AheadOfUs = TimeSpan.FromMinutes(10);

    private readonly Cell cell;
    private readonly AirPace pace;
    private readonly TimeZoneInfo local;
    private readonly MinuteWindow window;
    private readonly UnitWatch[] units;
    private readonly ZoneWatch[] zones;
    private FindingBook book;
    private AirForecasts forecasts;
    private readonly bool[] watched;
    private readonly Dictionary<string, JobLoaded> loaded = new(StringComparer.Ordinal);
    private long notAfter = long.MaxValue;
    private DateTimeOffset? next;
    private DateOnly? today;
    private bool awaitsPast;
    private string? pastFailed;

    /// <summary>Begins with nothing known.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="pace">How often it judges.</param>
    public AirWatch(Cell cell, AirPace pace)
        : this(cell, pace, new FindingBook())
    {
    }

    private AirWatch(Cell cell, AirPace pace, FindingBook book)
    {
        ArgumentNullException.ThrowIfNull(cell);
        ArgumentNullException.ThrowIfNull(pace);
        (this.cell, this.pace, this.book) = (cell, pace, book);
        local = TimeZoneInfo.TryFindSystemTimeZoneById(cell.Description.TimeZone, out var found) ? found : TimeZoneInfo.Utc;
        var handlers = cell.Description.AirHandlers;
        window = new MinuteWindow(cell, handlers.Count > 0 ? MinuteWindow.DayMinutes : WithoutHandlersMinutes);
        PastDays = handlers.Count == 0 ? 0 : (int)Math.Clamp(MostBytesOfDays / (8L * LiveSpan.DayMinutes * Math.Max(1, cell.Sensors.Count)), 2, MostDays);
        units = [.. handlers.Select(handler => new UnitWatch(cell, handler, PastDays))];
        zones = [.. cell.Zones.Select(zone => new ZoneWatch(cell, zone))];
        watched = new bool[cell.Sensors.Count];
        Array.Fill(watched, handlers.Count > 0);
        foreach (var sensor in zones.SelectMany(zone => zone.Sensors)) watched[sensor] = true;
        forecasts = new AirForecasts(cell);
        Snapshot = AirSnapshot.Nothing;
    }

    /// <summary>The sensors whose history matters, by their place in the cell.</summary>
    internal IReadOnlyList<int> Watched => [.. Enumerable.Range(0, watched.Length).Where(sensor => watched[sensor])];

    /// <summary>How many minutes are kept.</summary>
    internal int WindowMinutes => window.Minutes;

    /// <summary>How many earlier days are kept as what is usual: 14, fewer where a cell has so many sensors that they would take more than 64 MB.</summary>
    public int PastDays { get; }

    /// <summary>What is known now.</summary>
    public AirSnapshot Snapshot { get; private set; }

    /// <summary>Whether it waits for the history before it judges.</summary>
    public bool AwaitsPast => awaitsPast;

    /// <summary>The air of another version of the cell: findings stay, what is usual is to be read from the history anew.</summary>
    /// <param name="next">The other version.</param>
    /// <param name="moment">The moment.</param>
    /// <param name="decisions">Where to tell of findings at what is not there any more.</param>
    internal AirWatch For(Cell next, DateTimeOffset moment, List<Decision> decisions)
    {
        var after = new AirWatch(next, pace, book.Copy()) { notAfter = notAfter };
        decisions.AddRange(after.book.CloseGone(place => Exists(next, place), moment).Select(gone => new FindingTold(moment, gone)));
        foreach (var (machine, job) in loaded) after.loaded[machine] = job;
        foreach (var zone in after.zones)
        {
            if (Array.Find(zones, known => known.Zone.Id == zone.Zone.Id) is { } earlier) zone.GoOn(earlier);
        }

        after.Snapshot = Snapshot with { Findings = after.book.Standing, Closed = after.book.Closed };
        return after;
    }

    /// <summary>Takes a reading that is trusted.</summary>
    internal void Take(in TrustedReading reading)
    {
        if (watched[reading.Raw.Sensor] && reading.EpochMilliseconds <= notAfter) window.Add(reading.Raw.Sensor, reading.EpochMilliseconds, reading.Value);
    }

    /// <summary>Takes what happened in the cell.</summary>
    internal void Take(CellEvent happened, DateTimeOffset moment, IReadOnlyList<MachineState> machines, List<Decision> decisions)
    {
        if (happened is FindingOutcome outcome) Take(outcome, moment, machines, decisions);
        if (happened is not JobLoaded job) return;
        if (job.Serial.Length == 0) loaded.Remove(job.Machine);
        else loaded[job.Machine] = job;
        if (ZoneOf(job.Machine) is { } zone && job.Serial.Length > 0) zone.Touch(job);
    }

    /// <summary>Makes the pass that is due, if one is.</summary>
    /// <param name="moment">The moment.</param>
    /// <param name="machines">What the machines remember, for what is at risk.</param>
    /// <param name="decisions">Where to tell.</param>
    internal void Pass(DateTimeOffset moment, IReadOnlyList<MachineState> machines, List<Decision> decisions)
    {
        notAfter = (moment + AheadOfUs).ToUnixTimeMilliseconds();
        if (moment < next || awaitsPast) return;
        next = new DateTimeOffset(moment.UtcTicks - (moment.UtcTicks % pace.Pass.Ticks), TimeSpan.Zero) + pace.Pass;
        var end = new DateTimeOffset(moment.UtcTicks - (moment.UtcTicks % TimeSpan.TicksPerMinute), TimeSpan.Zero);
        TakeZones(end, decisions);
        Judge(end, TakeDayThatIsOver(end), machines, decisions);
        Snapshot = SnapshotAt(end);
    }

    private bool TakeDayThatIsOver(DateTimeOffset end)
    {
        var date = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(end, local).DateTime);
        var over = today is { } before && before != date && Day(before) is { } day && day.KnownMinutes >= LeastMinutesOfDay ? day : null;
        today = date;
        if (over is null) return false;
        foreach (var unit in units) unit.JudgeDayThatIsOver(over, HadFault(unit, over));
        return true;
    }

    private bool HadFault(UnitWatch unit, SignalFrame day) => book.WasTold(unit.Handler.Id, day.Start, day.TimeOf(day.Minutes));

    private SignalFrame? Day(DateOnly date)
    {
        var (from, to) = (MidnightOf(date), MidnightOf(date.AddDays(1)));
        return window.Before(to, (int)(to - from).TotalMinutes);
    }

    private DateTimeOffset MidnightOf(DateOnly date)
    {
        var wall = date.ToDateTime(TimeOnly.MinValue, DateTimeKind.Unspecified);
        return new DateTimeOffset(wall, local.GetUtcOffset(wall)).ToUniversalTime();
    }

    private void TakeZones(DateTimeOffset end, List<Decision> decisions)
    {
        TakeForecasts(end);
        var jobs = loaded.Values.OrderBy(job => job.Machine, StringComparer.Ordinal).ToLookup(job => cell.FindMachine(job.Machine)?.Zone, StringComparer.Ordinal);
        foreach (var zone in zones) zone.Take(window, jobs[zone.Zone.Id], end, decisions);
    }

    private void Judge(DateTimeOffset end, bool dayIsOver, IReadOnlyList<MachineState> machines, List<Decision> decisions)
    {
        if (units.Length == 0 || window.From is not { } from || (end - from).TotalMinutes < LeastMinutes) return;
        if (window.Before(end, LiveSpan.QuickMinutes) is not { } hour || hour.KnownMinutes * 2 < LiveSpan.QuickMinutes) return;
        SignalFrame? day = null;
        for (var i = 0; i < units.Length; i++)
        {
            var unit = units[i];
            unit.JudgeQuick(hour);
            var whole = pace.IsTurnOf(i, end) && (day ??= window.Before(end, LiveSpan.DayMinutes))?.KnownMinutes >= LeastMinutes;
            if (whole) unit.JudgeLastDay(day!);
            Settle(unit, cause => LiveSpan.IsQuick(cause) || (LiveSpan.NeedsDays(cause) ? dayIsOver : whole), end, machines, decisions);
        }
    }

    private ZoneWatch? ZoneOf(string machine) =>
        cell.FindMachine(machine) is { } known ? Array.Find(zones, zone => zone.Zone.Id == known.Zone) : null;

    private AirSnapshot SnapshotAt(DateTimeOffset? end) => new()
    {
        JudgedAt = end,
        KnownFrom = window.From,
        Findings = book.Standing,
        Closed = book.Closed,
        Units = [.. units.Select(unit => unit.Snapshot)],
        Zones = [.. zones.Select((zone, place) => WithForecast(zone.Snapshot, place))],
        Notes = Notes(),
    };

    private IReadOnlyList<string> Notes()
    {
        var notes = new List<string>();
        if (awaitsPast) notes.Add("The history is being read; findings are judged once it is.");
        if (pastFailed is { } why) notes.Add($"The history could not be read ({why}); what is usual is learned anew from now on.");
        if (!awaitsPast && units.Any(unit => unit.Snapshot.DaysKnown < 2))
            notes.Add("Fewer than two earlier days are known, so causes that show only against what is usual cannot be told yet.");
        if (zones.Length > forecasts.Zones.Count) notes.Add($"The air of a cell of more than {AirForecasts.MostZones} zones is not forecast; it is expected to stay.");
        return notes;
    }

    private static bool Exists(Cell next, FindingPlace place) =>
        (place.AirHandler is null || next.Description.AirHandlers.Any(unit => unit.Id == place.AirHandler))
        && (place.Zone is null || next.Zones.Any(zone => zone.Id == place.Zone))
        && (place.Machine is null || next.FindMachine(place.Machine) is not null)
        && (place.Sensor is null || next.IndexOfSensor(place.Sensor) >= 0);
}
