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

/// <summary>Something a script does to an air handler.</summary>
/// <param name="AirHandler">Id of the air handler.</param>
public abstract record AirHandlerAction(string AirHandler) : CellAction
{
    internal sealed override void Apply(VirtualCell cell, DateTimeOffset at)
    {
        var unit = cell.Room.FindAirHandler(AirHandler)
            ?? throw new ArgumentException($"No air handler '{AirHandler}' in cell '{cell.Description.Id}'.");
        Apply(unit);
    }

    internal abstract void Apply(AirHandlerUnit unit);
}

/// <summary>The filter loads up: less flow, and a coil that cannot get as cold.</summary>
/// <param name="AirHandler">Id of the air handler.</param>
/// <param name="FlowShare">What it lets through, in (0, 1]; 1 is a new filter.</param>
/// <param name="LostCoolingKelvin">How much the coldest supply rises, in K.</param>
public sealed record LoadFilter(string AirHandler, double FlowShare, double LostCoolingKelvin) : AirHandlerAction(AirHandler)
{
    internal override void Apply(AirHandlerUnit unit)
    {
        unit.FilterShare = Math.Clamp(FlowShare, 0.05, 1.0);
        unit.LostCoolingKelvin = LostCoolingKelvin;
    }
}

/// <summary>Somebody turns the knobs of the loop.</summary>
public sealed record RetuneLoop(string AirHandler, double Gain, TimeSpan IntegralTime) : AirHandlerAction(AirHandler)
{
    internal override void Apply(AirHandlerUnit unit)
    {
        unit.Loop.Gain = Gain;
        unit.Loop.IntegralTime = IntegralTime;
    }
}

/// <summary>The fan stops or starts.</summary>
public sealed record SwitchFan(string AirHandler, bool On) : AirHandlerAction(AirHandler)
{
    internal override void Apply(AirHandlerUnit unit) => unit.FanOn = On;
}

/// <summary>The cooling valve sticks at a position from 0 to 1; null frees it.</summary>
public sealed record StickValve(string AirHandler, double? Position) : AirHandlerAction(AirHandler)
{
    internal override void Apply(AirHandlerUnit unit) => unit.StuckAt = Position;
}

/// <summary>The cooling valve leaks: the supply is colder than asked by so many K.</summary>
public sealed record LeakValve(string AirHandler, double Kelvin) : AirHandlerAction(AirHandler)
{
    internal override void Apply(AirHandlerUnit unit) => unit.LeakKelvin = Kelvin;
}
