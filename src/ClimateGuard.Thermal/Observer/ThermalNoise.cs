namespace ClimateGuard.Thermal;

/// <summary>How uncertain the things are that nobody measures. Defaults are common practice, no source; each can be set.</summary>
public sealed record ThermalNoise
{
    /// <summary>Standard uncertainty of the local air beside what the zone's sensors say, in K.</summary>
    public double AirOffsetKelvins { get; init; } = 0.1;

    /// <summary>Standard uncertainty of the coolant beside what its sensor says, in K.</summary>
    public double CoolantOffsetKelvins { get; init; } = 0.1;

    /// <summary>Standard deviation of a modelled scale around its filter of the air, in K.</summary>
    public double ScaleKelvins { get; init; } = 0.15;

    /// <summary>Standard deviation of a modelled part around its filter, in K.</summary>
    public double PartKelvins { get; init; } = 0.05;

    /// <summary>Relative standard uncertainty of a part's time constant.</summary>
    public double TimeConstantShare { get; init; } = 0.25;

    /// <summary>
    /// Drift that no mode explains, as if the modes of an axis saw so many K of their own: standard deviation after one hour, growing with the
    /// root of time. A machine that hardly reacts to the air also drifts little by itself.
    /// </summary>
    public double DriftKelvinsPerRootHour { get; init; } = 0.05;

    /// <summary>Drift of an axis without modes: standard deviation after one hour, in µm, growing with the root of time.</summary>
    public double LeastDriftMicrometresPerRootHour { get; init; } = 0.05;

    /// <summary>Standard uncertainty of a start temperature that was given without one, in K.</summary>
    public double StartKelvins { get; init; } = 0.5;

    /// <summary>Standard uncertainty of a start temperature that was taken from the place the part came from, in K.</summary>
    public double OriginKelvins { get; init; } = 2.0;

    /// <summary>Standard uncertainty of a start temperature when nothing is known of where the part was, in K.</summary>
    public double UnknownOriginKelvins { get; init; } = 4.0;

    /// <summary>Standard deviation of the air around its forecast after a long time, in K.</summary>
    public double AirForecastKelvins { get; init; } = 0.2;

    /// <summary>How long the air's departure from its forecast lasts.</summary>
    public TimeSpan AirForecastMemory { get; init; } = TimeSpan.FromMinutes(60);

    /// <summary>Time constant with which pallet and fixture follow the air.</summary>
    public TimeSpan FixtureTimeConstant { get; init; } = TimeSpan.FromHours(4);

    /// <summary>How long a part stays wet after the coolant stopped, unless it is blown dry.</summary>
    public TimeSpan WetFor { get; init; } = TimeSpan.FromMinutes(30);
}
