using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>A door opens or closes; named by its contact.</summary>
public sealed record MoveDoor(string Sensor, bool Open) : CellAction
{
    internal override void Apply(VirtualCell cell, DateTimeOffset at)
    {
        var index = cell.Description.IndexOfSensor(Sensor);
        if (index < 0) throw new ArgumentException($"No sensor '{Sensor}' in cell '{cell.Description.Id}': a door is named by its contact.");
        var zone = cell.Room.FindZone(cell.Description.Sensors[index].Zone) ?? cell.Room.Zones[^1];
        if (!cell.SetContact(index, Open)) return;
        zone.OpenDoors += Open ? 1 : -1;
        cell.Say(new DoorMoved(at, Sensor, Open));
    }
}

/// <summary>The set point of a zone moves, as an energy programme does it.</summary>
public sealed record MoveSetpoint(string Zone, double Celsius) : CellAction
{
    internal override void Apply(VirtualCell cell, DateTimeOffset at)
    {
        if (cell.Room.FindZone(Zone) is { } zone) zone.SetpointCelsius = Celsius;
    }
}

/// <summary>Something a script does to a zone.</summary>
/// <param name="Zone">Id of the zone.</param>
public abstract record ZoneAction(string Zone) : CellAction
{
    internal sealed override void Apply(VirtualCell cell, DateTimeOffset at) =>
        Apply(cell.Room.FindZone(Zone) ?? throw new ArgumentException($"No zone '{Zone}' in cell '{cell.Description.Id}'."));

    internal abstract void Apply(VirtualZone zone);
}

/// <summary>A door without a contact, or with a dead one, stands open or closes; nobody is told.</summary>
public sealed record MoveUnseenDoor(string Zone, bool Open) : ZoneAction(Zone)
{
    internal override void Apply(VirtualZone zone) => zone.OpenDoors = Math.Max(0, zone.OpenDoors + (Open ? 1 : -1));
}

/// <summary>Seals and joints pass so many times the heat of the tight enclosure; 1 is tight.</summary>
public sealed record LeakEnvelope(string Zone, double Factor) : CellAction
{
    internal override void Apply(VirtualCell cell, DateTimeOffset at)
    {
        if (cell.Room.FindZone(Zone) is not { } zone) throw new ArgumentException($"No zone '{Zone}' in cell '{cell.Description.Id}'.");
        zone.EnvelopeFactor = Factor;
        cell.Room.Moisture.InfiltrationFactor = Math.Max(1.0, Factor);
    }
}

/// <summary>The neighbouring hall warms a zone through a thin partition, 1.5 h late; 0 ends it.</summary>
/// <param name="Zone">Id of the zone.</param>
/// <param name="WattsPerKelvin">Conductance of the partition, in W/K.</param>
public sealed record ThinPartition(string Zone, double WattsPerKelvin) : ZoneAction(Zone)
{
    internal override void Apply(VirtualZone zone) => zone.PartitionWattsPerKelvin = WattsPerKelvin;
}

/// <summary>Air below and above mixes only so far; 1 is healthy.</summary>
public sealed record LoseMixing(string Zone, double Share) : ZoneAction(Zone)
{
    internal override void Apply(VirtualZone zone) => zone.MixingShare = Share;
}

/// <summary>Something that gives so much heat, in W, stands in the zone; 0 takes it away.</summary>
public sealed record AddHeat(string Zone, double Watts) : ZoneAction(Zone)
{
    internal override void Apply(VirtualZone zone) => zone.ExtraHeatWatts = Watts;
}

/// <summary>The drying coil stops or works again.</summary>
public sealed record SwitchDrying(bool On) : CellAction
{
    internal override void Apply(VirtualCell cell, DateTimeOffset at) => cell.Room.Moisture.Drying = On;
}

/// <summary>Chilled water comes so many K warmer than it should to every coil; 0 ends it.</summary>
public sealed record WarmChilledWater(double Kelvin) : CellAction
{
    internal override void Apply(VirtualCell cell, DateTimeOffset at) => cell.Weather.WarmWaterKelvin = Kelvin;
}

/// <summary>The mains fail: machines, chillers, fans and gateways stop; the fans come back later than the rest, one by one by hand.</summary>
public sealed record FailPower(TimeSpan Duration, TimeSpan FanRestart) : CellAction
{
    internal override void Apply(VirtualCell cell, DateTimeOffset at) => cell.Power.Fail(at, Duration, FanRestart);
}
