using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Simulator;
using ClimateGuard.Tests.Support;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Evidence;

/// <summary>A two-sided pattern: where drift puts the half that is cut after the half-turn, by the axis of the table.</summary>
public class TwoSidedPatternTests
{
    private const double Eps = 12;
    private static readonly AxisDrift Drift = new(3, 5, -7);

    private static readonly PositionFeature Pattern = new()
    {
        Id = "p", ToleranceMillimetres = 0.06, Budget = BudgetRule.Absolute(18), Strategy = CuttingStrategy.TwoSided,
        Points = [new(200, 0), new(0, 200), new(-200, 0), new(0, -200), new(150, 150), new(-150, 150), new(-150, -150), new(150, -150)],
    };

    // A point of the part at (x, y, z) is carried by the matrix of a turn by 180 degrees to where the spindle cuts it, off by the drift; carried back it
    // is off by what is left of it in the frame of the part. Matrices: any textbook of mechanics; from memory.
    [Theory]
    [InlineData(RotaryAxis.A, 3, -5)]
    [InlineData(RotaryAxis.B, -3, 5)]
    [InlineData(RotaryAxis.C, -3, -5)]
    public void Half_a_turn_of_the_table_leaves_drift_along_its_axis_and_reverses_it_across(RotaryAxis axis, double dx, double dy)
    {
        double[,] turn = axis switch
        {
            RotaryAxis.A => Matrix(0, (c, s) => new[,] { { 1, 0, 0 }, { 0, c, -s }, { 0, s, c } }),
            RotaryAxis.B => Matrix(1, (c, s) => new[,] { { c, 0, s }, { 0, 1, 0 }, { -s, 0, c } }),
            _ => Matrix(2, (c, s) => new[,] { { c, -s, 0 }, { s, c, 0 }, { 0, 0, 1 } }),
        };
        double[] place = [150, -80, 40], drift = [Drift.X, Drift.Y, Drift.Z];
        var cut = Times(turn, place).Zip(drift, (p, d) => p + d).ToArray();
        var inPart = Times(Transposed(turn), cut);
        Assert.Equal((dx, dy), (Math.Round(inPart[0] - place[0], 9), Math.Round(inPart[1] - place[1], 9)));

        var hole = PatternPrediction.At(new PatternPoint(150, -80), 0, Drift, CuttingStrategy.TwoSided, axis);
        Assert.Equal((dx, dy), (hole.Dx, hole.Dy));
    }

    [Theory]
    [InlineData(RotaryAxis.A)]
    [InlineData(RotaryAxis.B)]
    [InlineData(RotaryAxis.C)]
    public void The_prediction_of_each_hole_is_what_the_simulator_makes_of_it(RotaryAxis axis)
    {
        var (holes, _, _) = PatternPrediction.Of(SomeCut.Of(Pattern, 20, _ => Eps, Drift, axis), Pattern);
        for (var i = 0; i < holes.Count; i++)
        {
            var (x, y) = TrueEffect.Hole(Pattern, i, Eps, new(Drift.X, Drift.Y, Drift.Z), axis);
            Assert.Equal((x, y), (holes[i].Dx, holes[i].Dy));
        }
    }

    // Each half holds a place for every corner of the other, so the worst corner of either side is a hole that is there.
    [Theory]
    [InlineData(RotaryAxis.A)]
    [InlineData(RotaryAxis.B)]
    [InlineData(RotaryAxis.C)]
    public void The_effect_on_the_whole_pattern_is_that_of_its_worst_hole(RotaryAxis axis)
    {
        // All on one side, so that each way of turning has a worst hole of its own.
        PatternPoint[] corners = [new(-200, 150), new(-100, 150), new(-200, 100)];
        var both = Pattern with { Points = [.. corners, .. corners] };
        var geometry = FeatureGeometry.Of(both, Some.Machine() with { IndexAxis = axis });
        var near = geometry.Near(Eps, Drift.X, Drift.Y, Drift.Z);
        Assert.Equal(TrueEffect.Micrometres(both, Eps, new(Drift.X, Drift.Y, Drift.Z), axis), near.At(Eps, Drift.X, Drift.Y, Drift.Z), 1e-9);
    }

    // First bore at D, second at D turned: 2*D across the axis of the table, and the coaxiality is twice that (B.2). About Z both axes lie across it.
    [Theory]
    [InlineData(RotaryAxis.A, 20)]
    [InlineData(RotaryAxis.B, 12)]
    [InlineData(RotaryAxis.C, 23.323807579)]
    public void Two_bores_are_off_each_other_by_the_drift_across_the_axis(RotaryAxis axis, double expected)
    {
        var bores = new CoaxialityFeature { Id = "c", ToleranceMillimetres = 0.008, Budget = BudgetRule.Absolute(2.4) };
        Assert.Equal(expected, TrueEffect.Micrometres(bores, Eps, new(Drift.X, Drift.Y, Drift.Z), axis), 1e-8);
        var near = FeatureGeometry.Of(bores, Some.Machine() with { IndexAxis = axis }).Near(Eps, Drift.X, Drift.Y, Drift.Z);
        Assert.Equal(expected, near.At(Eps, Drift.X, Drift.Y, Drift.Z), 1e-8);
    }

    // About B a drift of 8 along X puts the second half 16 to the other side; the same holes with the halves exchanged were cut by another cause.
    [Theory]
    [InlineData(1, PatternMatch.Matches)]
    [InlineData(-1, PatternMatch.Mismatch)]
    [InlineData(0, PatternMatch.Mismatch)]
    public void Two_halves_are_held_against_how_far_they_were_to_lie_apart(int sign, PatternMatch expected)
    {
        // Each half a circle of its own, so that nothing but the displacement tells them apart.
        var both = Pattern with { Points = [.. Some.Circle(200, 8), .. Some.Circle(150, 8)] };
        (int, HoleDeviation)[] measured =
        [
            .. SomeCut.Measured(both, _ => 0, noise: 1).Select(one => (one.Hole, one.Deviation with { Dx = one.Deviation.Dx + (sign * (one.Hole > 8 ? -8 : 8)) })),
        ];

        var evidence = PatternEvidence.Of(SomeCut.Of(both, 20, _ => 0, new AxisDrift(8, 0, 0)), both, measured, 4)!;

        Assert.Equal((PatternComponent.TwoHalves, expected), (evidence.Compared, evidence.Match));
        Assert.Equal(sign != 0, evidence.Signs.Any(one => one.Meaning.Component == PatternComponent.TwoHalves));
    }

    private static double[,] Matrix(int along, Func<double, double, double[,]> of)
    {
        var turn = of(Math.Cos(Math.PI), Math.Sin(Math.PI));
        Assert.Equal(1, turn[along, along]);
        return turn;
    }

    private static double[] Times(double[,] matrix, double[] vector) => [.. Enumerable.Range(0, 3).Select(row => Enumerable.Range(0, 3).Sum(column => matrix[row, column] * vector[column]))];

    private static double[,] Transposed(double[,] matrix)
    {
        var result = new double[3, 3];
        for (var row = 0; row < 3; row++)
        {
            for (var column = 0; column < 3; column++) result[row, column] = matrix[column, row];
        }

        return result;
    }
}
