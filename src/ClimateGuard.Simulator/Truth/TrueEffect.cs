using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>The simulator's own account of what a feature becomes: it places tool and material points and looks at them again at 20 °C.</summary>
/// <remarks>
/// Written point by point instead of by the closed formulas, so that agreement with a product's formulas is evidence and not a copy.
/// Relative expansion is kept to first order, which is good to 1 nm per metre at 10 K.
/// </remarks>
public static class TrueEffect
{
    /// <summary>The effect of strain and displacement on a feature.</summary>
    /// <param name="feature">The feature.</param>
    /// <param name="strain">Scale expansion minus part expansion, in µm/m.</param>
    /// <param name="moved">Tool against work since the datum was probed, in µm.</param>
    /// <param name="indexAxis">The rotary axis of a two-sided part.</param>
    public static double Micrometres(Feature feature, double strain, Displacement moved, RotaryAxis indexAxis) => feature switch
    {
        SizeFeature size => (strain * size.NominalMillimetres / 1000.0) + (size.Strategy == CuttingStrategy.Turned ? 2 * moved.X : 0),
        DepthFeature depth => (strain * depth.NominalMillimetres / 1000.0) - moved.Along(depth.Axis),
        DistanceFeature distance => strain * distance.NominalMillimetres / 1000.0,
        PositionFeature position => WorstHole(position, strain, moved, indexAxis),
        CoaxialityFeature => Between(moved, HalfTurned(moved, indexAxis)),
        _ => 0,
    };

    private static double WorstHole(PositionFeature position, double strain, Displacement moved, RotaryAxis indexAxis)
    {
        var worst = 0.0;
        for (var i = 0; i < position.Points.Count; i++)
        {
            var (dx, dy) = Hole(position, i, strain, moved, indexAxis);
            worst = Math.Max(worst, Math.Sqrt((dx * dx) + (dy * dy)));
        }

        return 2 * worst;
    }

    /// <summary>Where a hole lies later at 20 °C against where it should be, in µm, in the frame of the part.</summary>
    public static (double X, double Y) Hole(PositionFeature position, int index, double strain, Displacement moved, RotaryAxis indexAxis)
    {
        var hole = position.Points[index];
        var (toolX, toolY) = ToolShift(position, index, hole, moved, indexAxis);
        return ((strain * hole.X / 1000.0) + toolX, (strain * hole.Y / 1000.0) + toolY);
    }

    // Where the tool lands in the frame of the part: the table has turned the part under a spindle that drifted in machine axes.
    private static (double X, double Y) ToolShift(PositionFeature position, int index, PatternPoint hole, Displacement moved, RotaryAxis indexAxis)
    {
        switch (position.Strategy)
        {
            case CuttingStrategy.TableIndexed when hole.Radius > 0:
                var (cosine, sine) = (hole.X / hole.Radius, hole.Y / hole.Radius);
                return ((moved.X * cosine) - (moved.Y * sine), (moved.X * sine) + (moved.Y * cosine));
            case CuttingStrategy.TwoSided when index >= position.Points.Count / 2:
                var turned = HalfTurned(moved, indexAxis);
                return (turned.X, turned.Y);
            default:
                return (moved.X, moved.Y);
        }
    }

    // A half-turn about the unit axis u takes v to 2(u.v)u - v; turning back is the same turn, so this is the tool as the turned part sees it.
    private static Displacement HalfTurned(Displacement v, RotaryAxis axis)
    {
        var u = axis switch { RotaryAxis.A => new Displacement(1, 0, 0), RotaryAxis.B => new Displacement(0, 1, 0), _ => new Displacement(0, 0, 1) };
        var along = 2 * ((u.X * v.X) + (u.Y * v.Y) + (u.Z * v.Z));
        return new Displacement((along * u.X) - v.X, (along * u.Y) - v.Y, (along * u.Z) - v.Z);
    }

    // Two bores along the spindle: twice the distance of their axes across it.
    private static double Between(Displacement one, Displacement other) => 2 * Math.Sqrt(((one.X - other.X) * (one.X - other.X)) + ((one.Y - other.Y) * (one.Y - other.Y)));
}
