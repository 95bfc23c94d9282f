namespace ClimateGuard.Plant;

/// <summary>Checks of the cell itself, its zones and its air handlers.</summary>
internal static class CellChecks
{
    private static readonly HashSet<string> TemperatureRoles = new(StringComparer.Ordinal)
    {
        "supply", "return", "mixed", "outdoor", "supplySetpoint", "heatingSetpoint", "coolingSetpoint", "chilledWater",
    };

    private static readonly HashSet<string> SignalRoles = new(StringComparer.Ordinal)
    {
        "coolingCommand", "heatingCommand", "damperCommand", "returnDamperCommand", "fanStatus", "fanSpeed", "filterPressure",
        "staticPressure", "staticPressureSetpoint", "airflow", "compressor", "occupied",
    };

    public static void Run(CheckRun run)
    {
        if (run.Draft.TimeZone is { } zone && !run.Context.IsTimeZone(zone))
        {
            run.Add("/timeZone", PlantMessages.TimeZoneUnknown(zone, run.Context.TimeZoneNames()));
        }

        Zones(run);
        AirHandlers(run);
    }

    private static void Zones(CheckRun run)
    {
        run.Unique(run.Draft.Zones, z => z.Id, "zone", "/zones", "id");
        foreach (var (index, zone) in CheckRun.Numbered(run.Draft.Zones))
        {
            foreach (var (place, id) in CheckRun.Numbered(zone.AirHandlers))
            {
                run.Known(id, run.AirHandlers, "air handler", $"/zones/{index}/airHandlers/{place}");
            }

            SetBackChecks.Run(run, zone, $"/zones/{index}");
        }
    }

    private static void AirHandlers(CheckRun run)
    {
        run.Unique(run.Draft.AirHandlers, a => a.Id, "air handler", "/airHandlers", "id");
        foreach (var (index, handler) in CheckRun.Numbered(run.Draft.AirHandlers))
        {
            foreach (var (role, id) in handler.Points ?? new Dictionary<string, string?>())
            {
                var path = $"/airHandlers/{index}/points/{role}";
                if (TemperatureRoles.Contains(role))
                {
                    run.TemperatureSensor(id, $"the point '{role}'", path);
                }
                else if (run.Known(id, run.Sensors, "sensor", path) && SignalRoles.Contains(role)
                    && SensorDefaults.QuantityOf(run.Sensors![id!]) is SensorQuantity.Temperature or SensorQuantity.RelativeHumidity)
                {
                    run.Add(path, PlantMessages.PointNeedsNoTemperature(role, id!, SensorDefaults.QuantityOf(run.Sensors![id!])));
                }
            }
        }
    }
}
