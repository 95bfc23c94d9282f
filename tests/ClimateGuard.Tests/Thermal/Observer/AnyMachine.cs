using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Thermal;
using CsCheck;

namespace ClimateGuard.Tests.Thermal.Observer;

/// <summary>Machines, parts and surroundings of any kind, by a seed.</summary>
internal static class AnyMachine
{
    private static readonly Medium[] Media = [Medium.Air, Medium.Fan, Medium.Mist, Medium.Flood, Medium.Submerged, Medium.Wet];

    public static Gen<int> Seed { get; } = Gen.Int[0, 1_000_000];

    public static double Between(this Random chance, double low, double high) => low + ((high - low) * chance.NextDouble());

    public static ThermalModel Model(Random chance, ThermalNoise? noise = null, bool withSensor = true)
    {
        var machine = Some.Machine(chance.Between(0, 12)) with
        {
            Scale = new Scale
            {
                AlphaMicrometresPerMetreKelvin = chance.Between(1, 12),
                TimeConstant = TimeSpan.FromMinutes(chance.Between(5, 80)),
                Screw = chance.Next(3) == 0 ? new Screw { FixedBearingMillimetres = chance.Between(-900, 900), RiseKelvins = chance.Between(0, 10) } : null,
            },
            Drift = [.. Enumerable.Range(0, chance.Next(4)).Select(_ => new DriftMode((Axis)chance.Next(3), chance.Between(-8, 8), TimeSpan.FromHours(chance.Between(0.3, 8))))],
            Spindle = [.. Enumerable.Range(0, chance.Next(2)).Select(_ => new SpindleMode((Axis)chance.Next(3), chance.Between(2, 18), TimeSpan.FromMinutes(chance.Between(10, 40))))],
        };
        var part = Some.Disc() with
        {
            VolumeToAreaMillimetres = chance.Between(4, 50),
            HalfThicknessMillimetres = chance.Between(4, 60),
            HeatTransfer = new HeatTransfer { Pallet = chance.Next(2) == 0 ? 0 : chance.Between(5, 100) },
        };
        return new ThermalModel(machine, part, noise, partSensorLag: withSensor ? TimeSpan.FromSeconds(chance.Between(5, 600)) : default);
    }

    public static Surroundings Around(Random chance) => new(
        chance.Between(17, 24), Media[chance.Next(Media.Length)], chance.Between(16, 30), chance.Between(11, 17), chance.NextDouble());

    public static ThermalState Start(ThermalModel model, Random chance)
    {
        var state = model.Settled(new Surroundings(chance.Between(18, 23)));
        model.LoadPart(state, new Celsius(chance.Between(12, 30)), new Kelvins(chance.Between(0.02, 3)));
        ThermalModel.LoadPallet(state, new Celsius(chance.Between(12, 30)), new Kelvins(chance.Between(0.02, 3)));
        return state;
    }
}
