using System.Globalization;
using ClimateGuard.Enclosure;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Pages.Words;

namespace ClimateGuard.Worker.Pages.Technician;

/// <summary>One line of a chart: local times and values, a gap where the sensor was silent.</summary>
/// <param name="Name">What it is.</param>
/// <param name="Role">What it is to the air handler: air, supply, return, set point, cooling, heating, or another.</param>
/// <param name="Times">Local times, as the chart reads them.</param>
/// <param name="Values">Values; null is a gap.</param>
public sealed record AirTrace(string Name, string Role, IReadOnlyList<string> Times, IReadOnlyList<double?> Values);

/// <summary>The last two days of an air handler and its zone from the history, with what happened.</summary>
/// <param name="Traces">The lines.</param>
/// <param name="Doors">When a door of the zone stood open, as local times.</param>
public sealed record AirTraces(IReadOnlyList<AirTrace> Traces, IReadOnlyList<(string From, string To)> Doors)
{
    private const int Points = 800;
    private static readonly TimeSpan Span = TimeSpan.FromHours(48);
    private static readonly TimeSpan Silence = TimeSpan.FromMinutes(30);

    private static readonly (string Role, string Name)[] Roles =
    [
        ("supply", "supply air"), ("return", "return air"), ("coolingSetpoint", "set point"), ("coolingCommand", "cooling"), ("heatingCommand", "heating"),
        ("fanSpeed", "fan speed"), ("filterPressure", "filter pressure"), ("airflow", "air flow"),
    ];

    /// <summary>Reads them.</summary>
    /// <param name="readings">The history.</param>
    /// <param name="cell">The cell.</param>
    /// <param name="handler">The air handler.</param>
    /// <param name="now">Up to when.</param>
    /// <param name="time">The clock of the cell.</param>
    /// <param name="cancellation">Stops reading.</param>
    public static async Task<AirTraces> ReadAsync(
        IReadingStore readings, Cell cell, AirHandler handler, DateTimeOffset now, CellTime time, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(readings);
        ArgumentNullException.ThrowIfNull(cell);
        ArgumentNullException.ThrowIfNull(handler);
        ArgumentNullException.ThrowIfNull(time);
        var zones = cell.Zones.Where(zone => zone.AirHandlers.Contains(handler.Id)).Select(zone => zone.Id).ToHashSet(StringComparer.Ordinal);
        var wanted = cell.Sensors.Where(s => s is { Quantity: SensorQuantity.Temperature, Place: SensorPlace.Air, Machine: null, Zone: { } zone } && zones.Contains(zone))
            .Select(s => (s.Id, Role: "air", Name: s.Id)).ToList();
        wanted.AddRange(Roles.Select(r => (Sensor: PointRoles.SensorOf(cell, handler, r.Role), r.Role, r.Name)).Where(r => r.Sensor >= 0)
            .Select(r => (cell.Sensors[r.Sensor].Id, r.Role, r.Name)));
        var traces = new List<AirTrace>();
        foreach (var (id, role, name) in wanted)
        {
            var points = await readings.ReadAsync(id, now - Span, now, Points, cancellation);
            if (points.Count > 0) traces.Add(Trace(points, role, name, time));
        }

        var doors = new List<(string, string)>();
        foreach (var door in cell.Sensors.Where(s => s is { Quantity: SensorQuantity.Contact, Place: SensorPlace.Door } && (s.Zone is null || zones.Contains(s.Zone))))
            doors.AddRange(Open(await readings.ReadAsync(door.Id, now - Span, now, Points, cancellation), now, time));
        return new AirTraces(traces, doors);
    }

    /// <summary>A moment as the chart reads it.</summary>
    public static string Stamp(CellTime time, DateTimeOffset moment)
    {
        ArgumentNullException.ThrowIfNull(time);
        return time.Local(moment).ToString("yyyy-MM-ddTHH:mm:ss", CultureInfo.InvariantCulture);
    }

    private static AirTrace Trace(IReadOnlyList<SeriesPoint> points, string role, string name, CellTime time)
    {
        var (times, values) = (new List<string>(points.Count), new List<double?>(points.Count));
        var last = points[0].EpochMilliseconds;
        foreach (var point in points)
        {
            if (point.EpochMilliseconds - last > Silence.TotalMilliseconds && role is not "coolingSetpoint")
            {
                times.Add(Stamp(time, DateTimeOffset.FromUnixTimeMilliseconds(last + 60_000)));
                values.Add(null);
            }

            times.Add(Stamp(time, DateTimeOffset.FromUnixTimeMilliseconds(point.EpochMilliseconds)));
            values.Add(Math.Round(point.Value, 3));
            last = point.EpochMilliseconds;
        }

        return new AirTrace(name, role, times, values);
    }

    private static IEnumerable<(string From, string To)> Open(IReadOnlyList<SeriesPoint> points, DateTimeOffset now, CellTime time)
    {
        long? since = null;
        foreach (var point in points)
        {
            if (point.Value > 0.5) since ??= point.EpochMilliseconds;
            else if (since is { } from)
            {
                yield return (At(from), At(point.EpochMilliseconds));
                since = null;
            }
        }

        if (since is { } still) yield return (At(still), Stamp(time, now));

        string At(long epoch) => Stamp(time, DateTimeOffset.FromUnixTimeMilliseconds(epoch));
    }
}
