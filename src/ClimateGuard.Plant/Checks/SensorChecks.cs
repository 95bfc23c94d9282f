using System.Globalization;

namespace ClimateGuard.Plant;

/// <summary>Checks of the sensors.</summary>
internal static class SensorChecks
{
    public static void Run(CheckRun run)
    {
        run.Unique(run.Draft.Sensors, s => s.Id, "sensor", "/sensors", "id");
        Topics(run);
        foreach (var (index, sensor) in CheckRun.Numbered(run.Draft.Sensors))
        {
            var path = $"/sensors/{index}";
            run.Known(sensor.Zone, run.Zones, "zone", $"{path}/zone");
            run.Known(sensor.Machine, run.Machines, "machine", $"{path}/machine");
            run.Known(sensor.AirHandler, run.AirHandlers, "air handler", $"{path}/airHandler");
            Unit(run, sensor, path);
            Plausible(run, sensor, path);
            LoopRange(run, sensor, path);
            Calibrations(run, sensor, path);
        }
    }

    /// <summary>The topic on which a sensor's readings come.</summary>
    public static string? TopicOf(SensorDraft sensor, string? cell) =>
        sensor.Topic ?? (sensor.Id is null || cell is null ? null : $"cg/{cell}/reading/{sensor.Id}");

    private static void Topics(CheckRun run)
    {
        var first = new Dictionary<string, SensorDraft>(StringComparer.Ordinal);
        foreach (var (index, sensor) in CheckRun.Numbered(run.Draft.Sensors))
        {
            if (TopicOf(sensor, run.Draft.Cell) is not { } topic || first.TryAdd(topic, sensor))
            {
                continue;
            }

            // two sensors of one id share the default topic; the double id is already reported
            if (sensor.Topic is not null || first[topic].Topic is not null)
            {
                run.Add($"/sensors/{index}/{(sensor.Topic is null ? "id" : "topic")}", PlantMessages.DuplicateTopic(topic, first[topic].Id));
            }
        }
    }

    private static void Unit(CheckRun run, SensorDraft sensor, string path)
    {
        var quantity = SensorDefaults.QuantityOf(sensor);
        if (sensor.Unit is { } unit && !SensorUnits.ByQuantity[quantity].Contains(unit, StringComparer.Ordinal))
        {
            run.Add($"{path}/unit", PlantMessages.UnitNotAllowed(unit, quantity, SensorUnits.ByQuantity[quantity]));
        }
    }

    private static void Plausible(CheckRun run, SensorDraft sensor, string path)
    {
        if (sensor.Plausible is [{ } low, { } high] && low >= high)
        {
            run.Add($"{path}/plausible", PlantMessages.PlausibleOrder(low, high));
        }
    }

    private static void LoopRange(CheckRun run, SensorDraft sensor, string path)
    {
        if (sensor.LoopRange is not [{ } at4, { } at20])
        {
            return;
        }

        if (sensor.Device is not SensorDevice.CurrentLoop)
        {
            run.Add($"{path}/loopRange", PlantMessages.LoopRangeWithoutLoop(sensor.Device ?? SensorDevice.Generic));
        }
        else if (at4 >= at20)
        {
            run.Add($"{path}/loopRange", PlantMessages.LoopRangeOrder(at4, at20));
        }
    }

    private static void Calibrations(CheckRun run, SensorDraft sensor, string path)
    {
        var seen = new HashSet<DateTimeOffset>();
        foreach (var (index, calibration) in CheckRun.Numbered(sensor.Calibrations))
        {
            if (calibration.From is not { } text)
            {
                continue;
            }

            if (!TryTime(text, out var from))
            {
                run.Add($"{path}/calibrations/{index}/from", PlantMessages.CalibrationTimeUnreadable(text));
            }
            else if (!seen.Add(from))
            {
                run.Add($"{path}/calibrations/{index}/from", PlantMessages.CalibrationTimeTwice(text));
            }
        }
    }

    /// <summary>Reads an RFC 3339 time.</summary>
    public static bool TryTime(string text, out DateTimeOffset time) =>
        DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out time);
}
