using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Support;

/// <summary>Things of the trade to test with; every property can be changed by <c>with</c>.</summary>
internal static class Some
{
    public static readonly DateTimeOffset Morning = new(2026, 3, 2, 7, 0, 0, TimeSpan.Zero);

    public static Material Steel(double alpha = 11.5, double uAlpha = 0.5) => new()
    {
        Id = "steel",
        AlphaMicrometresPerMetreKelvin = alpha,
        UAlphaMicrometresPerMetreKelvin = uAlpha,
        ConductivityWattsPerMetreKelvin = 45,
        DensityKilogramsPerCubicMetre = 7850,
        SpecificHeatJoulesPerKilogramKelvin = 475,
        Source = "invented for a test",
    };

    public static Machine Machine(double scaleAlpha = 11.5) => new()
    {
        Id = "M1",
        Kind = "5-axis horizontal",
        Zone = "main",
        Scale = new Scale { AlphaMicrometresPerMetreKelvin = scaleAlpha },
        CoolantSensor = "m1/coolant",
    };

    public static Part Disc(params Feature[] features) => new()
    {
        Number = "D-1",
        Name = "disc",
        Material = Steel(),
        VolumeToAreaMillimetres = 30,
        HalfThicknessMillimetres = 30,
        Shape = PartShape.Disc,
        Features = features.Length > 0 ? features : [Holes()],
    };

    public static PositionFeature Holes(double radiusMillimetres = 400, int count = 12, double toleranceMillimetres = 0.060, double share = 0.30) => new()
    {
        Id = "holes",
        ToleranceMillimetres = toleranceMillimetres,
        Budget = BudgetRule.OfTolerance(share),
        Datum = DatumKind.Axis,
        Points = Circle(radiusMillimetres, count),
    };

    public static IReadOnlyList<PatternPoint> Circle(double radiusMillimetres, int count) =>
    [
        .. Enumerable.Range(0, count).Select(i => new PatternPoint(
            radiusMillimetres * Math.Cos(2 * Math.PI * i / count), radiusMillimetres * Math.Sin(2 * Math.PI * i / count))),
    ];

    public static ThermalState StateOf(ThermalModel model, double partCelsius, double scaleCelsius)
    {
        var state = model.Settled(new Surroundings(scaleCelsius));
        model.LoadPart(state, new Celsius(partCelsius), new Kelvins(0.1));
        return state;
    }
}
