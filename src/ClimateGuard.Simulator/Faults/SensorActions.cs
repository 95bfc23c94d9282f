namespace ClimateGuard.Simulator;

/// <summary>Something a script does to a sensor.</summary>
/// <param name="Sensor">Id of the sensor.</param>
public abstract record SensorAction(string Sensor) : CellAction
{
    internal sealed override void Apply(VirtualCell cell, DateTimeOffset at) => Apply(cell.SensorOf(Sensor), cell);

    internal abstract void Apply(SensorModel sensor, VirtualCell cell);
}

/// <summary>Sun or another warm thing shines on a sensor: so many K above what it should feel; 0 ends it.</summary>
public sealed record ShineOn(string Sensor, double Kelvin) : SensorAction(Sensor)
{
    internal override void Apply(SensorModel sensor, VirtualCell cell) => sensor.RadiantKelvin = Kelvin;
}

/// <summary>A sensor is off by so much from now on; 0 ends it.</summary>
public sealed record OffsetSensor(string Sensor, double Offset) : SensorAction(Sensor)
{
    internal override void Apply(SensorModel sensor, VirtualCell cell) => sensor.FaultOffset = Offset;
}

/// <summary>A sensor says the same number for ever, or comes back.</summary>
public sealed record FreezeSensor(string Sensor, bool Frozen) : SensorAction(Sensor)
{
    internal override void Apply(SensorModel sensor, VirtualCell cell) => sensor.Frozen = Frozen;
}

/// <summary>A sensor follows so many times slower than a well placed one; 1 is well placed.</summary>
public sealed record SlowSensor(string Sensor, double Factor) : SensorAction(Sensor)
{
    internal override void Apply(SensorModel sensor, VirtualCell cell) => sensor.LagFactor = Math.Max(1.0, Factor);
}

/// <summary>The values of a sensor come in coarse steps; null is its own last digit.</summary>
public sealed record CoarsenSensor(string Sensor, double? Step) : SensorAction(Sensor)
{
    internal override void Apply(SensorModel sensor, VirtualCell cell) => sensor.CoarseStep = Step;
}

/// <summary>A sensor falls silent, or comes back.</summary>
public sealed record SilenceSensor(string Sensor, bool Silent) : SensorAction(Sensor)
{
    internal override void Apply(SensorModel sensor, VirtualCell cell) => sensor.Silent = Silent;
}

/// <summary>Two sensors are put back in each other's place; a second swap undoes it.</summary>
public sealed record SwapSensors(string Sensor, string Other) : SensorAction(Sensor)
{
    internal override void Apply(SensorModel sensor, VirtualCell cell) => sensor.SwapPlaceWith(cell.SensorOf(Other));
}

/// <summary>The broker cannot be reached for a while; what was said meanwhile comes afterwards, with its own event times.</summary>
public sealed record BrokerOutage(TimeSpan Duration) : CellAction
{
    internal override void Apply(VirtualCell cell, DateTimeOffset at) => cell.HoldSignalsUntil(at + Duration);
}
