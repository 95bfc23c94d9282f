namespace ClimateGuard.Simulator;

/// <summary>Somebody turns the knobs of the loop.</summary>
public sealed record RetuneLoop(string AirHandler, double Gain, TimeSpan IntegralTime) : AirHandlerAction(AirHandler)
{
    internal override void Apply(AirHandlerUnit unit)
    {
        unit.Loop.Gain = Gain;
        unit.Loop.IntegralTime = IntegralTime;
    }
}

/// <summary>The cooling valve sticks at a position from 0 to 1; null frees it.</summary>
public sealed record StickValve(string AirHandler, double? Position) : AirHandlerAction(AirHandler)
{
    internal override void Apply(AirHandlerUnit unit) => unit.CoolingValve.StuckAt = Position;
}

/// <summary>The stem of the cooling valve follows only when the command has moved so far, as a share of the stroke; 0 is free.</summary>
public sealed record StiffenValve(string AirHandler, double Stiction) : AirHandlerAction(AirHandler)
{
    internal override void Apply(AirHandlerUnit unit) => unit.CoolingValve.Stiction = Stiction;
}

/// <summary>So much of full flow passes the closed cooling valve; 0 is tight.</summary>
public sealed record LeakValve(string AirHandler, double FlowShare) : AirHandlerAction(AirHandler)
{
    internal override void Apply(AirHandlerUnit unit) => unit.CoolingValve.LeakShare = Math.Clamp(FlowShare, 0, 1);
}

/// <summary>The heater runs at so much whatever the loop asks: two loops without a dead band between them; 0 ends it.</summary>
public sealed record OverlapHeating(string AirHandler, double Share) : AirHandlerAction(AirHandler)
{
    internal override void Apply(AirHandlerUnit unit) => unit.HeatingOverlap = Math.Clamp(Share, 0, 1);
}

/// <summary>Somebody sets the cooling command by hand, 0 to 1; null is automatic.</summary>
public sealed record TakeByHand(string AirHandler, double? Command) : AirHandlerAction(AirHandler)
{
    internal override void Apply(AirHandlerUnit unit) => unit.ManualCommand = Command;
}

/// <summary>A thermostat with a dead band in K stands in for the loop; 0 is the loop. On a direct-expansion unit it sets the differential.</summary>
public sealed record WidenThermostat(string AirHandler, double Kelvin) : AirHandlerAction(AirHandler)
{
    internal override void Apply(AirHandlerUnit unit)
    {
        if (unit.Compressor is { } stage) stage.DifferentialKelvin = Kelvin > 0 ? Kelvin : CompressorStage.HealthyDifferentialKelvin;
        else unit.ThermostatBandKelvin = Kelvin;
    }
}

/// <summary>A limit stops the integral of the loop, or does not.</summary>
public sealed record SetAntiWindup(string AirHandler, bool On) : AirHandlerAction(AirHandler)
{
    internal override void Apply(AirHandlerUnit unit) => unit.Loop.AntiWindup = On;
}

/// <summary>The loop looks at another zone than the one it feeds; null puts it right.</summary>
public sealed record CrossLoop(string AirHandler, string? Zone) : CellAction
{
    internal override void Apply(VirtualCell cell, DateTimeOffset at)
    {
        var unit = cell.Room.FindAirHandler(AirHandler)
            ?? throw new ArgumentException($"No air handler '{AirHandler}' in cell '{cell.Description.Id}'.");
        unit.WatchesInstead = Zone is null
            ? null
            : cell.Room.FindZone(Zone) ?? throw new ArgumentException($"No zone '{Zone}' in cell '{cell.Description.Id}'.");
    }
}
