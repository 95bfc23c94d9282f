using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>What a fault is laid on.</summary>
public enum FaultTarget
{
    /// <summary>An air handler.</summary>
    AirHandler,

    /// <summary>An air handler with a direct-expansion coil.</summary>
    DirectExpansion,

    /// <summary>An air handler that takes outdoor air.</summary>
    OutdoorAir,

    /// <summary>A zone.</summary>
    Zone,

    /// <summary>A sensor.</summary>
    Sensor,

    /// <summary>A machine with a tank.</summary>
    Machine,

    /// <summary>The contact of a door.</summary>
    Door,

    /// <summary>The whole cell; its id.</summary>
    Cell,
}

/// <summary>One of the faults F01 to F34: what begins it and what ends it.</summary>
/// <param name="Code">The number, F01 to F34.</param>
/// <param name="Name">The fault in words.</param>
/// <param name="Target">What it is laid on.</param>
public sealed record FaultKind(string Code, string Name, FaultTarget Target)
{
    internal Func<FaultPlace, IEnumerable<CellAction>> Begin { get; init; } = _ => [];

    internal Func<FaultPlace, IEnumerable<CellAction>> End { get; init; } = _ => [];

    /// <summary>Whether the cell has such a thing under that id.</summary>
    public bool Fits(Cell cell, string target)
    {
        ArgumentNullException.ThrowIfNull(cell);
        var unit = cell.Description.AirHandlers.FirstOrDefault(a => a.Id == target);
        return Target switch
        {
            FaultTarget.AirHandler => unit is not null,
            FaultTarget.DirectExpansion => unit is { Medium: CoolingMedium.DirectExpansion },
            FaultTarget.OutdoorAir => unit is { OutdoorAir: true },
            FaultTarget.Zone => cell.Zones.Any(z => z.Id == target),
            FaultTarget.Machine => cell.FindMachine(target) is { CoolantSensor: not null },
            FaultTarget.Cell => cell.Id == target,
            FaultTarget.Door => cell.IndexOfSensor(target) is >= 0 and var at && cell.Sensors[at].Quantity == SensorQuantity.Contact,
            _ => cell.IndexOfSensor(target) >= 0,
        };
    }
}

/// <summary>Where a fault is laid and how large it is.</summary>
/// <param name="Cell">The cell.</param>
/// <param name="Target">Id of what it is laid on.</param>
/// <param name="Size">1 is a fault as a shop would have it; half and double are small and large.</param>
internal sealed record FaultPlace(Cell Cell, string Target, double Size)
{
    /// <summary>A zone that the air handler does not serve, or null.</summary>
    public string? OtherZone => Cell.Zones.FirstOrDefault(z => !z.AirHandlers.Contains(Target))?.Id;

    /// <summary>The first zone that the air handler serves.</summary>
    public string OwnZone => Cell.Zones.First(z => z.AirHandlers.Contains(Target)).Id;

    /// <summary>The air handler of another zone, or null.</summary>
    public string? OtherAirHandler => Cell.Zones.FirstOrDefault(z => !z.AirHandlers.Contains(Target) && z.AirHandlers.Count > 0)?.AirHandlers[0];
}
