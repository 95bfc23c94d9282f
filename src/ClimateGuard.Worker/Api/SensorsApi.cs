using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Api;

/// <summary><c>GET /sensors</c>: every sensor with what it said last.</summary>
internal static class SensorsApi
{
    public static void Map(RouteGroupBuilder api) => api.MapGet("/sensors", (CellLoop loop) =>
        loop.Snapshot.Sensors
            .OrderByDescending(s => s.Sensor is { Quantity: SensorQuantity.Temperature, Place: SensorPlace.Air })
            .Select(Of))
        .WithSummary("Every sensor with what it said last; air temperatures first.");

    private static SensorItem Of(SensorSnapshot sensor) => new(
        sensor.Sensor.Id,
        JsonWord.Of(sensor.Sensor.Quantity.ToString()),
        JsonWord.Of(sensor.Sensor.Place.ToString()),
        sensor.Sensor.Zone,
        sensor.Sensor.Machine,
        SensorUnits.ByQuantity[sensor.Sensor.Quantity][0],
        sensor.LastTime,
        double.IsNaN(sensor.LastValue) ? null : sensor.LastValue,
        JsonWord.Of(sensor.State.ToString()),
        sensor.Because,
        sensor.Condition == TrustReason.None ? null : JsonWord.Of(sensor.Condition.ToString()),
        sensor.Counts.SetAside,
        sensor.Counts.Late);

    /// <summary>One sensor; <c>value</c> is in <c>unit</c>, null before the first reading; <c>condition</c> is what is wrong with it, null when nothing is.</summary>
    internal sealed record SensorItem(
        string Id, string Quantity, string Place, string? Zone, string? Machine, string Unit, DateTimeOffset? Time, double? Value, string State, string? Because,
        string? Condition, long SetAside, long Late);
}
