namespace ClimateGuard.Simulator;

/// <summary>A sensor moves away from the truth by so much each day; 0 ends it and keeps what it has.</summary>
public sealed record DriftSensor(string Sensor, double PerDay) : SensorAction(Sensor)
{
    internal override void Apply(SensorModel sensor, VirtualCell cell) => sensor.DriftPerDay = PerDay;
}

/// <summary>A share of a sensor's readings is disturbed by about so much; a share of 0 ends it.</summary>
public sealed record DisturbSensor(string Sensor, double Size, double Share) : SensorAction(Sensor)
{
    internal override void Apply(SensorModel sensor, VirtualCell cell) => sensor.Spikes = (Size, Share);
}

/// <summary>A sensor reports at another period.</summary>
public sealed record ReportEvery(string Sensor, TimeSpan Period) : SensorAction(Sensor)
{
    internal override void Apply(SensorModel sensor, VirtualCell cell) => sensor.PeriodMilliseconds = (long)Period.TotalMilliseconds;
}

/// <summary>The clock of a sensor's gateway is ahead by so much; zero puts it right.</summary>
public sealed record SetSensorClockAhead(string Sensor, TimeSpan Ahead) : SensorAction(Sensor)
{
    internal override void Apply(SensorModel sensor, VirtualCell cell) => sensor.ClockAheadMilliseconds = (long)Ahead.TotalMilliseconds;
}

/// <summary>A sensor sends something else than what it reads, such as another unit or the value of an open probe; null ends it.</summary>
public sealed record GarbleSensor(string Sensor, Func<double, double>? Garbles) : SensorAction(Sensor)
{
    internal override void Apply(SensorModel sensor, VirtualCell cell) => sensor.Garbles = Garbles;
}

/// <summary>A second device begins to send under a sensor's id, off by so much; null ends it.</summary>
public sealed record AddTwin(string Sensor, double? Offset) : SensorAction(Sensor)
{
    internal override void Apply(SensorModel sensor, VirtualCell cell) => sensor.TwinOffset = Offset;
}
