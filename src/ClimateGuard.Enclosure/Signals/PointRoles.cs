using ClimateGuard.Plant;

namespace ClimateGuard.Enclosure;

/// <summary>The roles a sensor may have at an air handler.</summary>
public static class PointRoles
{
    /// <summary>Every role, as written in the plant file under <c>points</c>.</summary>
    public static IReadOnlyList<string> All { get; } =
    [
        "supply", "return", "mixed", "outdoor", "supplySetpoint", "heatingSetpoint", "coolingSetpoint", "chilledWater", "coolingCommand",
        "heatingCommand", "damperCommand", "returnDamperCommand", "fanStatus", "fanSpeed", "filterPressure", "staticPressure",
        "staticPressureSetpoint", "airflow", "compressor", "occupied",
    ];

    /// <summary>Index of the sensor with that role, or -1.</summary>
    public static int SensorOf(Cell cell, AirHandler handler, string role)
    {
        ArgumentNullException.ThrowIfNull(cell);
        ArgumentNullException.ThrowIfNull(handler);
        if (handler.Points.TryGetValue(role, out var id)) return cell.IndexOfSensor(id);
        return role switch
        {
            "supply" => Only(cell, handler, SensorPlace.Supply, false),
            "return" => Only(cell, handler, SensorPlace.Return, false),
            "mixed" => Only(cell, handler, SensorPlace.Mixed, false),
            "outdoor" => Only(cell, handler, SensorPlace.Outdoor, true),
            "chilledWater" => Only(cell, handler, SensorPlace.ChilledWater, true),
            _ => -1,
        };
    }

    private static int Only(Cell cell, AirHandler handler, SensorPlace place, bool shared)
    {
        var found = -1;
        for (var index = 0; index < cell.Sensors.Count; index++)
        {
            var sensor = cell.Sensors[index];
            var belongs = sensor.AirHandler == handler.Id || (shared && sensor.AirHandler is null && sensor.Machine is null);
            if (sensor.Quantity is not SensorQuantity.Temperature || sensor.Place != place || !belongs) continue;
            if (found >= 0) return -1;
            found = index;
        }

        return found;
    }
}
