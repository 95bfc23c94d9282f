using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Published;

/// <summary>Growth of a bolt circle by position (ASME Y14.5-2018 section 10, from memory; numbers recomputed), through the model of a feature.</summary>
public sealed class BoltCircle_ThroughTheModel
{
    [Theory]
    [InlineData(500, 23.6, 23, 0, 20, 35.40)] // D mm, αp, °C, αs, °C, position µm; tolerance 1e-9
    [InlineData(800, 8.6, 25, 0, 20, 34.40)]
    [InlineData(300, 11.5, 18, 0, 20, 6.90)]
    [InlineData(500, 23.6, 23, 11.5, 23, 18.15)]
    public void About_its_centre(double circle, double alpha, double part, double scaleAlpha, double scale, double position) =>
        Within.Absolute(position, Effect(new BoltCircle(circle / 2, 8, 0).Points(), alpha, part, scaleAlpha, scale), 1e-9);

    [Fact]
    public void With_the_datum_at_the_first_hole()
    {
        double[] expected = [0, 27.094, 50.063, 65.411, 70.800, 65.411, 50.063, 27.094]; // 8 holes on 500 mm, 23.6, +3 K; 1e-3 µm
        var holes = new BoltCircle(250, 8, 0).Points();
        var fromFirst = holes.Select(hole => new PatternPoint(hole.X - holes[0].X, hole.Y - holes[0].Y)).ToArray();
        for (var i = 0; i < expected.Length; i++)
        {
            Within.Absolute(expected[i], Effect([fromFirst[i]], 23.6, 23, 0, 20), 1e-3, $"hole {i + 1}");
        }

        // The feature is its worst hole, twice the centred value.
        Within.Absolute(70.800, Effect(fromFirst, 23.6, 23, 0, 20), 1e-3);
    }

    private static double Effect(IReadOnlyList<PatternPoint> points, double alpha, double part, double scaleAlpha, double scale)
    {
        var model = new ThermalModel(Some.Machine(scaleAlpha), Some.Disc(Some.Holes() with { Points = points }) with { Material = Some.Steel(alpha) });
        return model.Effects[0].At(model, Some.StateOf(model, part, scale)).EffectMicrometres;
    }
}
