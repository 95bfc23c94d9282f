namespace ClimateGuard.Plant;

/// <summary>Checks of the machines.</summary>
internal static class MachineChecks
{
    public static void Run(CheckRun run)
    {
        run.Unique(run.Draft.Machines, m => m.Id, "machine", "/machines", "id");
        foreach (var (index, machine) in CheckRun.Numbered(run.Draft.Machines))
        {
            var path = $"/machines/{index}";
            if (machine.Zone is null && run.Zones is { Count: > 1 })
            {
                run.Add(path, PlantMessages.ZoneNotStated(machine.Id, [.. run.Zones.Keys]));
            }

            run.Known(machine.Zone, run.Zones, "zone", $"{path}/zone");
            run.TemperatureSensor(machine.Storage, "the storage of a machine", $"{path}/storage");
            var coolant = run.TemperatureSensor(machine.Coolant, "the coolant of a machine", $"{path}/coolant");
            if (coolant is not null && SensorPlaceOf(coolant) is var place and not (SensorPlace.Coolant or SensorPlace.Dielectric))
            {
                run.Add($"{path}/coolant", PlantMessages.CoolantPlaceWrong(machine.Coolant!, place));
            }

            if (machine.Scale?.Alpha is { } alpha && MaterialChecks.LooksLikePerKelvin(alpha))
            {
                run.Add($"{path}/scale/alpha", PlantMessages.AlphaPerKelvin(alpha));
            }
        }
    }

    private static SensorPlace SensorPlaceOf(SensorDraft sensor) => sensor.Place ?? SensorDefaults.Place(SensorDefaults.QuantityOf(sensor));
}
