namespace ClimateGuard.Simulator;

/// <summary>What stands around the room and its air handlers during a step.</summary>
/// <param name="HallCelsius">Air of the hall, in °C.</param>
/// <param name="OutdoorCelsius">Air outdoors, in °C.</param>
/// <param name="ChilledWaterCelsius">Chilled water that comes to the coils, in °C.</param>
internal readonly record struct AirOutside(double HallCelsius, double OutdoorCelsius, double ChilledWaterCelsius);
