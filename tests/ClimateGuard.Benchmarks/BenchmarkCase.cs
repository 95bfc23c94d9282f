using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Benchmarks;

/// <summary>A machine with drift along X, Y and Z and a part with features of every kind, at the edge of their budgets.</summary>
internal static class BenchmarkCase
{
    public static ThermalModel Model(int features) => new(Machine(), Part(features));

    public static ThermalState State(ThermalModel model)
    {
        var state = model.Settled(new Surroundings(20.3));
        model.LoadPart(state, new Celsius(20.9), new Kelvins(0.2));
        return state;
    }

    public static CutAhead Cut(int minutes, int paths) => new()
    {
        Surroundings = new Surroundings(20.4, Medium.Flood, 20.2, SpindleLoad: 0.6),
        Planned = TimeSpan.FromMinutes(minutes),
        AirCelsius = [.. Enumerable.Range(0, minutes).Select(i => 20.4 + (0.005 * i))],
        Paths = paths,
    };

    private static Machine Machine() => new()
    {
        Id = "M1",
        Zone = "main",
        Drift =
        [
            new(Axis.X, 3, TimeSpan.FromHours(6)),
            new(Axis.Y, 5, TimeSpan.FromHours(6)),
            new(Axis.Z, -2, TimeSpan.FromHours(0.8)),
            new(Axis.Z, 7, TimeSpan.FromHours(6)),
        ],
        Spindle = [new(Axis.Z, 18, TimeSpan.FromMinutes(25))],
        CoolantSensor = "m1/coolant",
    };

    private static Part Part(int features) => new()
    {
        Number = "D-1",
        Material = new Material
        {
            Id = "steel",
            AlphaMicrometresPerMetreKelvin = 11.5,
            ConductivityWattsPerMetreKelvin = 45,
            DensityKilogramsPerCubicMetre = 7850,
            SpecificHeatJoulesPerKilogramKelvin = 475,
        },
        VolumeToAreaMillimetres = 30,
        HalfThicknessMillimetres = 30,
        Features = [.. Enumerable.Range(0, features).Select(Feature)],
    };

    private static Feature Feature(int i)
    {
        var id = FormattableString.Invariant($"f{i}");
        var budget = BudgetRule.Absolute(4 + (i % 7));
        return (i % 5) switch
        {
            0 => new SizeFeature { Id = id, ToleranceMillimetres = 0.02, Budget = budget, NominalMillimetres = 380 - (8 * i) },
            1 => new DepthFeature { Id = id, ToleranceMillimetres = 0.02, Budget = budget, NominalMillimetres = 60 + i },
            2 => new PositionFeature { Id = id, ToleranceMillimetres = 0.06, Budget = budget, Points = Circle(450, 24) },
            3 => new PositionFeature { Id = id, ToleranceMillimetres = 0.06, Budget = budget, Points = [new(0, 0), new(700, 0), new(700, 500), new(0, 500)] },
            _ => new DistanceFeature { Id = id, ToleranceMillimetres = 0.02, Budget = budget, NominalMillimetres = 200 },
        };
    }

    private static PatternPoint[] Circle(double radius, int count) =>
        [.. Enumerable.Range(0, count).Select(i => new PatternPoint(radius * Math.Cos(2 * Math.PI * i / count), radius * Math.Sin(2 * Math.PI * i / count)))];
}
