namespace ClimateGuard.Enclosure;

/// <summary>What is known of a zone at one moment; NaN where it is not known.</summary>
/// <remarks>Equality by members; no order; the default is all zero: build it with values. Immutable.</remarks>
/// <param name="EpochMilliseconds">Event time.</param>
/// <param name="AirCelsius">Air where the machines stand.</param>
/// <param name="SetpointCelsius">What the air is asked to be.</param>
/// <param name="SupplyCelsius">Supply air.</param>
/// <param name="FlowShare">Air flow as a share of full flow, 0 to 1.</param>
/// <param name="HallCelsius">The hall at this zone.</param>
/// <param name="NextZoneCelsius">Air of the zone beside it.</param>
/// <param name="LoadKilowatts">Power of the machines in the zone.</param>
/// <param name="DoorOpen">Share of its doors that is open, 0 to 1.</param>
/// <param name="Regime">How the air is being kept.</param>
public readonly record struct ZoneMoment(
    long EpochMilliseconds,
    double AirCelsius,
    double SetpointCelsius,
    double SupplyCelsius,
    double FlowShare,
    double HallCelsius,
    double NextZoneCelsius,
    double LoadKilowatts,
    double DoorOpen,
    Regime Regime);
