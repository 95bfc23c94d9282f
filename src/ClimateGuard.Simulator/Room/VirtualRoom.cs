using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>The room of the demo: four nodes per zone, its own numbers, in steps of 10 s or less, with its energy booked.</summary>
public sealed class VirtualRoom
{
    private static readonly double[] FullFlows = [6050, 7300];
    private readonly VirtualZone[] zones;
    private readonly double coupling;
    private readonly double storedAtStart;

    internal VirtualRoom(CellDescription cell, int seed, double scale, TimeSpan step)
    {
        if (step <= TimeSpan.Zero || step > TimeSpan.FromSeconds(10))
            throw new ArgumentOutOfRangeException(nameof(step), step, "The room steps in more than 0 and at most 10 s.");
        var chance = new Chance(seed, "room");
        coupling = chance.Perturbed(2000, scale);
        AirHandlers = [.. cell.AirHandlers.Select((a, i) => new AirHandlerUnit(a, FullFlows[i % FullFlows.Length], chance, scale, step))];
        zones = [.. cell.Zones.Select(z => new VirtualZone(
            z, RoomParameters.Of(chance, scale), [.. AirHandlers.Where(u => z.AirHandlers.Contains(u.Description.Id))]))];
        storedAtStart = zones.Sum(z => z.StoredJoules);
    }

    /// <summary>The zones, in the order of the plant file.</summary>
    public IReadOnlyList<VirtualZone> Zones => zones;

    /// <summary>The air handlers, in the order of the plant file.</summary>
    public IReadOnlyList<AirHandlerUnit> AirHandlers { get; }

    /// <summary>The water in its air.</summary>
    public RoomMoisture Moisture { get; } = new();

    /// <summary>The book of its energy.</summary>
    public EnergyBalance Energy { get; } = new();

    /// <summary>The zone of that id, or null.</summary>
    public VirtualZone? FindZone(string? id)
    {
        foreach (var zone in zones)
        {
            if (zone.Zone.Id == id) return zone;
        }

        return null;
    }

    /// <summary>The air handler of that id, or null.</summary>
    public AirHandlerUnit? FindAirHandler(string? id)
    {
        foreach (var unit in AirHandlers)
        {
            if (unit.Description.Id == id) return unit;
        }

        return null;
    }

    internal void Advance(CellWeather weather, ReadOnlySpan<double> loadWatts, double seconds)
    {
        var outside = weather.Outside;
        foreach (var zone in zones) zone.Control(outside, seconds);
        var doors = 0.0;
        foreach (var zone in zones)
        {
            if (zone.OpenDoors > 0) doors += zone.OpenDoors * DoorFlow.CubicMetresPerSecond(zone.LowCelsius, outside.HallCelsius);
        }

        Moisture.Advance(zones[0].LowCelsius, weather.HallShare, doors, seconds);
        for (var i = 0; i < zones.Length; i++)
            zones[i].Collect(outside.HallCelsius, loadWatts[i], i + 1 < zones.Length ? zones[i + 1] : null, coupling, seconds, Energy);
        foreach (var zone in zones) zone.Move(seconds, Energy);
        var stored = 0.0;
        foreach (var zone in zones) stored += zone.StoredJoules;
        Energy.StoredJoules = stored - storedAtStart;
    }
}
