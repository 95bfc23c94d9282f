namespace ClimateGuard.Thermal;

/// <summary>How uncertain the things are that nobody measures. Defaults are common practice, no source; each can be set.</summary>
public sealed record ThermalNoise
{
    /// <summary>Standard uncertainty of the local air beside what the zone's sensors say, in K.</summary>
    public double AirOffsetKelvins { get; init; } = 0.1;

    /// <summary>Standard uncertainty of the coolant beside what its sensor says, in K.</summary>
    public double CoolantOffsetKelvins { get; init; } = 0.1;

    /// <summary>How long what measurements taught of these two offsets is believed.</summary>
    public TimeSpan OffsetMemory { get; init; } = TimeSpan.FromHours(8);

    /// <summary>Standard deviation of the air of one place in the enclosure beside that at the machine, in K: where a part lay before it was loaded.</summary>
    public double PlaceKelvins { get; init; } = 0.2;

    /// <summary>Standard deviation of a modelled scale around its filter of the air, in K.</summary>
    public double ScaleKelvins { get; init; } = 0.15;

    /// <summary>The share of that variance that stays over a cut: where the scale sits, and what warms its guide.</summary>
    public double ScaleSlowShare { get; init; } = 0.9;

    /// <summary>How long that share lasts.</summary>
    public TimeSpan ScaleMemory { get; init; } = TimeSpan.FromHours(8);

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

    /// <summary>How far the sensitivity of a mode wanders in a week, as a share of it; it grows with the root of time (common practice, 1 to 3 %).</summary>
    public double SensitivitySharePerRootWeek { get; init; } = 0.02;

    /// <summary>Standard uncertainty of a start temperature that was given without one, in K.</summary>
    public double StartKelvins { get; init; } = 0.5;

    /// <summary>Standard uncertainty of a start temperature that was taken from the place the part came from, in K.</summary>
    public double OriginKelvins { get; init; } = 2.0;

    /// <summary>Standard uncertainty of the start temperature of a part that comes from another machine, beside that machine's coolant, in K.</summary>
    public double MachineOriginKelvins { get; init; } = 1.0;

    /// <summary>Standard uncertainty of the start temperature of a part that comes from the wash, in K.</summary>
    public double WashOriginKelvins { get; init; } = 5.0;

    /// <summary>How warm parts leave the wash; stations run at 40 to 60 °C (common practice, no source).</summary>
    public double WashCelsius { get; init; } = 50.0;

    /// <summary>Standard uncertainty of a start temperature of a part that comes from the hall, or of which nothing is known, in K.</summary>
    public double UnknownOriginKelvins { get; init; } = 4.0;

    /// <summary>Standard deviation of the air around its forecast after a long time while no errors of forecasts are known, in K (common practice, no source).</summary>
    public double AirForecastKelvins { get; init; } = 0.2;

    /// <summary>The least it is taken for, in K: a machine's own place never quite follows the mean of its zone (common practice, no source).</summary>
    public double LeastAirForecastKelvins { get; init; } = 0.1;

    /// <summary>How long the air's departure from its forecast lasts.</summary>
    public TimeSpan AirForecastMemory { get; init; } = TimeSpan.FromMinutes(60);

    /// <summary>Time constant with which pallet and fixture follow the air.</summary>
    public TimeSpan FixtureTimeConstant { get; init; } = TimeSpan.FromHours(4);

    /// <summary>How long a part counts as wet after the coolant stopped, unless it is blown dry; then less than a tenth of the film is left.</summary>
    public TimeSpan WetFor { get; init; } = TimeSpan.FromMinutes(40);

    /// <summary>In what time the film on a wet part falls to 37 %: half an hour after the coolant stopped little is left (common practice, no source).</summary>
    public TimeSpan DryingTime { get; init; } = TimeSpan.FromMinutes(15);

    /// <summary>
    /// Which share of the surface is wet when the coolant stops, from 0 (blown dry at once) to 1. Who blows a part dry can say so (<c>dry</c> of a
    /// <c>coolant</c> event), so silence mostly means that it drips (common practice, no source).
    /// </summary>
    public double WetShare { get; init; } = 0.7;

    /// <summary>Standard uncertainty of that share: not everybody says it.</summary>
    public double WetShareUncertainty { get; init; } = 0.3;
}
