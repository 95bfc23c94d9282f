namespace ClimateGuard.Plant;

/// <summary>One measuring point with its place, its unit and how far it can be trusted.</summary>
public sealed record Sensor
{
    /// <summary>The id, [A-Za-z0-9._/-]+; the default topic is <c>cg/{cell}/reading/{id}</c>.</summary>
    public required string Id { get; init; }

    /// <summary>What it measures.</summary>
    public required SensorQuantity Quantity { get; init; }

    /// <summary>Where it sits.</summary>
    public required SensorPlace Place { get; init; }

    /// <summary>The zone it stands for, or null.</summary>
    public string? Zone { get; init; }

    /// <summary>The machine it belongs to, or null.</summary>
    public string? Machine { get; init; }

    /// <summary>The air handler it belongs to, or null.</summary>
    public string? AirHandler { get; init; }

    /// <summary>Height above the floor in metres, or null when not stated.</summary>
    public double? HeightMetres { get; init; }

    /// <summary>The unit of a payload that names none, one of <see cref="SensorUnits"/>.</summary>
    public string Unit { get; init; } = SensorUnits.Celsius;

    /// <summary>A topic of its own, or null for the default topic.</summary>
    public string? Topic { get; init; }

    /// <summary>How often it reports.</summary>
    public TimeSpan Period { get; init; } = TimeSpan.FromSeconds(10);

    /// <summary>It reports only when its value changes; silence up to the invalid age is then no fault.</summary>
    public bool ReportsOnChange { get; init; }

    /// <summary>The longest it stays silent while nothing changes, when it reports only changes; beyond it, it counts as lost.</summary>
    public TimeSpan Heartbeat { get; init; } = TimeSpan.FromHours(1);

    /// <summary>What kind of device measures; it decides which values mean a broken sensor.</summary>
    public SensorDevice Device { get; init; }

    /// <summary>What a current loop means by 4 mA and by 20 mA, in the canonical unit of the quantity, or null when not stated.</summary>
    public (double At4, double At20)? LoopRange { get; init; }

    /// <summary>Standard uncertainty (k = 1) of one reading after calibration, in K (or in the sensor's own unit).</summary>
    public double Uncertainty { get; init; } = 0.1;

    /// <summary>The step in which its values come, in the canonical unit of the quantity, or null when not stated.</summary>
    public double? Resolution { get; init; }

    /// <summary>Time constant of the sensor in its place.</summary>
    public TimeSpan TimeConstant { get; init; } = TimeSpan.FromSeconds(60);

    /// <summary>The least plausible value, in the canonical unit of the quantity.</summary>
    public double PlausibleLow { get; init; } = 5;

    /// <summary>The greatest plausible value, in the canonical unit of the quantity.</summary>
    public double PlausibleHigh { get; init; } = 45;

    /// <summary>Calibrations, applied by event time; in order of <see cref="Calibration.From"/>.</summary>
    public IReadOnlyList<Calibration> Calibrations { get; init; } = [];
}

/// <summary>One calibration of a sensor: what to subtract from a reading from then on.</summary>
/// <param name="From">The event time from which it holds.</param>
/// <param name="Offset">Reading minus truth, in the canonical unit; subtracted from each reading.</param>
/// <param name="Uncertainty">Standard uncertainty (k = 1) of the offset, in the canonical unit.</param>
/// <param name="Instance">The physical sensor, such as its serial number, or null.</param>
public sealed record Calibration(DateTimeOffset From, double Offset, double Uncertainty, string? Instance);
