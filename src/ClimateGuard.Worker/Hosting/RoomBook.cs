using ClimateGuard.Enclosure;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Hosting;

/// <summary>The zones of the running cell as rooms, described once a local day from the days that are over, when somebody asks.</summary>
/// <remarks>Beside the loop: no decision knows of it. Safe across threads; one reading at a time, so that ten open pages read the history once.</remarks>
internal sealed class RoomBook(CellLoop loop, IReadingStore readings) : IDisposable
{
    /// <summary>How many days are looked at: a working week with its week-end.</summary>
    public const int Days = 7;

    private readonly SemaphoreSlim gate = new(1, 1);
    private RoomsOfDay? kept;

    public void Dispose() => gate.Dispose();

    /// <summary>The rooms as they are described today, in the order of the zones; none for a cell with more zones than are forecast.</summary>
    /// <exception cref="StoreUnavailableException">The history cannot be read.</exception>
    public async Task<RoomsOfDay> TodayAsync(CancellationToken cancellation)
    {
        await gate.WaitAsync(cancellation);
        try
        {
            var snapshot = loop.Snapshot;
            var today = TodayOf(snapshot);
            if (kept is { } known && known.Today == today && known.ConfigVersion == snapshot.ConfigVersion) return known;
            return kept = await Task.Run(() => DescribeAsync(snapshot, today, cancellation), cancellation);
        }
        finally
        {
            gate.Release();
        }
    }

    /// <summary>The local day of a snapshot.</summary>
    public static DateOnly TodayOf(CellSnapshot snapshot) => DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(snapshot.Time, ZoneOf(snapshot.Cell)).DateTime);

    private async Task<RoomsOfDay> DescribeAsync(CellSnapshot snapshot, DateOnly today, CancellationToken cancellation)
    {
        var cell = snapshot.Cell;
        var local = ZoneOf(cell);
        var zones = cell.Zones.Count > AirForecasts.MostZones ? [] : cell.Zones;
        var programmes = zones.Select(zone => new SetBackProgramme(zone, local)).ToArray();
        var minutes = zones.Select(_ => new List<ZoneMoment>()).ToArray();
        var sensors = SensorsOf(cell);
        for (var back = Days; back > 0 && zones.Count > 0; back--)
        {
            if (await AirPast.DayAsync(readings, cell, sensors, today.AddDays(-back), local, cancellation) is not { } day) continue;
            ZoneSignals[] signals = [.. zones.Select(zone => new ZoneSignals(cell, zone, day))];
            for (var z = 0; z < signals.Length; z++)
                minutes[z].AddRange(ZoneMoments.Of(signals[z], signals.Length > 1 ? signals[(z + 1) % signals.Length] : null, programmes[z]));
        }

        return new RoomsOfDay(
            snapshot.ConfigVersion, today, cell.Description.Policies.Shifts,
            [.. zones.Select((zone, z) => DescribedRoom.Of(zone, minutes[z], cell.Description.Policies.Shifts, local))]);
    }

    private static int[] SensorsOf(Cell cell)
    {
        var roles = cell.Description.AirHandlers.SelectMany(unit => PointRoles.All.Select(role => PointRoles.SensorOf(cell, unit, role))).ToHashSet();
        return
        [
            .. Enumerable.Range(0, cell.Sensors.Count).Where(index => roles.Contains(index) || cell.Sensors[index] is
                { Quantity: SensorQuantity.Temperature, Place: SensorPlace.Air or SensorPlace.Hall } or { Quantity: SensorQuantity.Power }
                or { Quantity: SensorQuantity.Contact, Place: SensorPlace.Door }),
        ];
    }

    private static TimeZoneInfo ZoneOf(Cell cell) => TimeZoneInfo.TryFindSystemTimeZoneById(cell.Description.TimeZone, out var found) ? found : TimeZoneInfo.Utc;
}

/// <summary>The rooms of a cell as described on one day.</summary>
/// <param name="ConfigVersion">The plant file in force.</param>
/// <param name="Today">The local day; the days before it count.</param>
/// <param name="Shifts">The shifts in force.</param>
/// <param name="Rooms">The rooms, in the order of the zones.</param>
internal sealed record RoomsOfDay(string ConfigVersion, DateOnly Today, IReadOnlyList<Shift> Shifts, IReadOnlyList<DescribedRoom> Rooms);
