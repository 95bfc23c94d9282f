namespace ClimateGuard.Simulator;

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
        unit.Fan.FilterShare = Math.Clamp(FlowShare, 0.05, 1.0);
        unit.LostCoolingKelvin = LostCoolingKelvin;
    }
}

/// <summary>The fan stops or starts.</summary>
public sealed record SwitchFan(string AirHandler, bool On) : AirHandlerAction(AirHandler)
{
    internal override void Apply(AirHandlerUnit unit) => unit.Fan.On = On;
}

/// <summary>The belt passes on only so much; 0 is torn. The status of the motor still says it runs.</summary>
public sealed record SlipBelt(string AirHandler, double Share) : AirHandlerAction(AirHandler)
{
    internal override void Apply(AirHandlerUnit unit) => unit.Fan.BeltShare = Math.Clamp(Share, 0, 1);
}

/// <summary>The energy programme sets the speed of the fan, as a share of full speed.</summary>
public sealed record SetFanSpeed(string AirHandler, double Share) : AirHandlerAction(AirHandler)
{
    internal override void Apply(AirHandlerUnit unit) => unit.Fan.SpeedCommand = Math.Clamp(Share, 0, 1);
}

/// <summary>Little water comes through the coil: the coldest supply rises by so many K.</summary>
public sealed record StarveCoil(string AirHandler, double Kelvin) : AirHandlerAction(AirHandler)
{
    internal override void Apply(AirHandlerUnit unit) => unit.LostCoolingKelvin = Kelvin;
}

/// <summary>Dirt or ice leaves only so much of the coil; 1 is clean.</summary>
public sealed record FoulCoil(string AirHandler, double Share) : AirHandlerAction(AirHandler)
{
    internal override void Apply(AirHandlerUnit unit) => unit.CoilShare = Math.Clamp(Share, 0, 1);
}

/// <summary>So much of the supply air goes straight into the return; 0 is healthy.</summary>
public sealed record ShortCircuitSupply(string AirHandler, double Share) : AirHandlerAction(AirHandler)
{
    internal override void Apply(AirHandlerUnit unit) => unit.ShortCircuitShare = Math.Clamp(Share, 0, 0.9);
}

/// <summary>The linkage of the outdoor damper is stuck at a position from 0 to 1; null frees it.</summary>
public sealed record StickDamper(string AirHandler, double? Position) : AirHandlerAction(AirHandler)
{
    internal override void Apply(AirHandlerUnit unit)
    {
        if (!unit.Description.OutdoorAir) throw new ArgumentException($"Air handler '{AirHandler}' takes no outdoor air and has no damper.");
        unit.Damper.StuckAt = Position;
    }
}
