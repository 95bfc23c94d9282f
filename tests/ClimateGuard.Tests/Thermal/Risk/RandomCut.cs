using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Thermal;
using CsCheck;

namespace ClimateGuard.Tests.Thermal.Risk;

/// <summary>A machine, a part, a state and a cut of any kind.</summary>
internal sealed record RandomCut(ThermalModel Model, ThermalState State, CutAhead Cut)
{
    private static readonly Medium[] Media = [Medium.Air, Medium.Fan, Medium.Mist, Medium.Flood, Medium.Submerged, Medium.Wet];

    public TimeSpan[] Durations => [.. Model.Effects.Select(effect => Cut.Planned ?? effect.Feature.FinishDuration)];

    public static Gen<RandomCut> Any(int paths) => Gen.Int[0, 1_000_000].Select(seed => Of(new Random(seed), paths));

    public static RandomCut Of(Random chance, int paths)
    {
        double Between(double low, double high) => low + ((high - low) * chance.NextDouble());
        var axes = new[] { Axis.X, Axis.Y, Axis.Z };
        var machine = Some.Machine(Between(0, 12)) with
        {
            Scale = new Scale { AlphaMicrometresPerMetreKelvin = Between(0, 12), TimeConstant = TimeSpan.FromMinutes(Between(5, 80)), Compensated = chance.Next(6) == 0 },
            PartCompensated = chance.Next(6) == 0,
            Drift = [.. Enumerable.Range(0, chance.Next(5)).Select(_ => new DriftMode(axes[chance.Next(3)], Between(-8, 8), TimeSpan.FromHours(Between(0.3, 8))))],
            Spindle = [.. Enumerable.Range(0, chance.Next(2)).Select(_ => new SpindleMode(axes[chance.Next(3)], Between(2, 18), TimeSpan.FromMinutes(Between(10, 40))))],
            IndexAxis = (RotaryAxis)chance.Next(3),
        };
        Feature[] features = [.. Enumerable.Range(0, 1 + chance.Next(6)).Select(i => AnyFeature(chance, i))];
        var part = Some.Disc(features) with { VolumeToAreaMillimetres = Between(4, 50), HalfThicknessMillimetres = Between(4, 60) };
        var model = new ThermalModel(machine, part);
        var air = Between(18.5, 21.5);
        var around = new Surroundings(air, Media[chance.Next(Media.Length)], Between(18, 24), Between(12, 16), chance.NextDouble());
        var state = model.Settled(new Surroundings(Between(19, 21)));
        model.LoadPart(state, new Celsius(Between(16, 24)), new Kelvins(Between(0.02, 0.6)));
        model.Advance(state, around, TimeSpan.FromMinutes(Between(1, 90)));
        return new(model, state, new CutAhead
        {
            Surroundings = around,
            Planned = chance.Next(2) == 0 ? TimeSpan.FromMinutes(Between(2, 70)) : null,
            AirCelsius = [.. Enumerable.Range(0, chance.Next(3) * 20).Select(i => air + (0.02 * i))],
            Paths = paths,
            Seed = chance.Next(),
            AirSpreadKelvins = chance.Next(2) == 0 ? null : Between(0, 0.6),
        });
    }

    private static Feature AnyFeature(Random chance, int index)
    {
        double Between(double low, double high) => low + ((high - low) * chance.NextDouble());
        var id = FormattableString.Invariant($"f{index}");
        var budget = BudgetRule.Absolute(Math.Exp(Between(Math.Log(0.5), Math.Log(25))));
        var duration = TimeSpan.FromMinutes(Between(3, 60));
        var axis = (Axis)chance.Next(3);
        return chance.Next(6) switch
        {
            0 => new SizeFeature { Id = id, ToleranceMillimetres = 0.02, Budget = budget, FinishDuration = duration, NominalMillimetres = Between(20, 400), Strategy = chance.Next(2) == 0 ? CuttingStrategy.Turned : CuttingStrategy.Interpolated },
            1 => new DepthFeature { Id = id, ToleranceMillimetres = 0.02, Budget = budget, FinishDuration = duration, NominalMillimetres = Between(5, 200), Axis = axis },
            2 => new DistanceFeature { Id = id, ToleranceMillimetres = 0.02, Budget = budget, FinishDuration = duration, NominalMillimetres = Between(20, 400), Axis = axis },
            3 => new CoaxialityFeature { Id = id, ToleranceMillimetres = 0.02, Budget = budget, FinishDuration = duration },
            4 => new PositionFeature { Id = id, ToleranceMillimetres = 0.05, Budget = budget, FinishDuration = duration, Points = Some.Circle(Between(40, 450), chance.Next(3, 25)), Strategy = (CuttingStrategy)chance.Next(4) },
            _ => new PositionFeature { Id = id, ToleranceMillimetres = 0.05, Budget = budget, FinishDuration = duration, Datum = DatumKind.Corner, Points = [.. Enumerable.Range(0, 12).Select(_ => new PatternPoint(Between(0, 700), Between(0, 500)))] },
        };
    }
}
