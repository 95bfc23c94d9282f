using ClimateGuard.Enclosure;
using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>What the history says of the air before a worker began.</summary>
/// <param name="Cell">The cell whose sensors it counts.</param>
/// <param name="Days">The local days that are over, oldest first.</param>
/// <param name="Minutes">The means of the last minutes.</param>
/// <param name="Today">The local day it was read on.</param>
/// <param name="Failed">Why it could not be read whole, or null.</param>
public sealed record AirPast(
    Cell Cell, IReadOnlyList<SignalFrame> Days, IReadOnlyList<(int Sensor, DateTimeOffset Minute, double Mean)> Minutes, DateOnly Today, string? Failed)
{
    private const int PointsOfDay = 20_000;

    /// <summary>The forecasts after those days, or null when the days could not be read.</summary>
    internal AirForecasts? Forecasts { get; init; }

    /// <summary>Reads it, day by day; a store that fails gives what was read until then.</summary>
    /// <param name="readings">The store.</param>
    /// <param name="cell">The cell.</param>
    /// <param name="air">The watch it is for, which knows how many days and which sensors matter.</param>
    /// <param name="until">Up to when.</param>
    /// <param name="cancellation">Stops reading.</param>
    /// <remarks>Where a sensor has more than 20 000 values a day, the least and the greatest of each stretch stand for it.</remarks>
    public static async Task<AirPast> ReadAsync(IReadingStore readings, Cell cell, AirWatch air, DateTimeOffset until, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(readings);
        ArgumentNullException.ThrowIfNull(cell);
        ArgumentNullException.ThrowIfNull(air);
        var sensors = air.Watched;
        var zone = TimeZoneInfo.TryFindSystemTimeZoneById(cell.Description.TimeZone, out var found) ? found : TimeZoneInfo.Utc;
        var today = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(until, zone).DateTime);
        var frames = new List<SignalFrame>();
        var minutes = new List<(int, DateTimeOffset, double)>();
        try
        {
            for (var back = air.PastDays; back > 0; back--)
            {
                if (await DayAsync(readings, cell, sensors, today.AddDays(-back), zone, cancellation) is { } frame) frames.Add(frame);
            }

            await LastAsync(readings, cell, air, until, minutes, cancellation);
            return new AirPast(cell, frames, minutes, today, null) { Forecasts = AirForecasts.Learned(cell, frames) };
        }
        catch (Exception failed) when (failed is not (OperationCanceledException or OutOfMemoryException))
        {
            return new AirPast(cell, frames, minutes, today, failed.Message.TrimEnd('.'));
        }
    }

    /// <summary>The minutes of a local day, or null when nothing is known of it.</summary>
    /// <param name="readings">The store.</param>
    /// <param name="cell">The cell.</param>
    /// <param name="sensors">The sensors, by their place in the cell.</param>
    /// <param name="date">The day.</param>
    /// <param name="zone">Where it is that day.</param>
    /// <param name="cancellation">Stops reading.</param>
    public static async Task<SignalFrame?> DayAsync(
        IReadingStore readings, Cell cell, IReadOnlyList<int> sensors, DateOnly date, TimeZoneInfo zone, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(readings);
        ArgumentNullException.ThrowIfNull(cell);
        ArgumentNullException.ThrowIfNull(sensors);
        var (from, to) = (MidnightOf(date, zone), MidnightOf(date.AddDays(1), zone));
        var day = new MinuteWindow(cell);
        foreach (var sensor in sensors)
        {
            foreach (var point in await readings.ReadAsync(cell.Sensors[sensor].Id, from, to, PointsOfDay, cancellation))
                day.Add(sensor, point.EpochMilliseconds, point.Value);
        }

        return day.Before(to, (int)(to - from).TotalMinutes);
    }

    private static async Task LastAsync(
        IReadingStore readings, Cell cell, AirWatch air, DateTimeOffset until, List<(int Sensor, DateTimeOffset Minute, double Mean)> minutes, CancellationToken cancellation)
    {
        foreach (var sensor in air.Watched)
        {
            var points = await readings.ReadAsync(cell.Sensors[sensor].Id, until.AddMinutes(-air.WindowMinutes), until, PointsOfDay, cancellation);
            minutes.AddRange(points.GroupBy(point => point.EpochMilliseconds / 60_000)
                .Select(group => (sensor, DateTimeOffset.FromUnixTimeMilliseconds(group.Key * 60_000), group.Average(point => point.Value))));
        }
    }

    private static DateTimeOffset MidnightOf(DateOnly date, TimeZoneInfo zone)
    {
        var wall = date.ToDateTime(TimeOnly.MinValue, DateTimeKind.Unspecified);
        return new DateTimeOffset(wall, zone.GetUtcOffset(wall)).ToUniversalTime();
    }
}
