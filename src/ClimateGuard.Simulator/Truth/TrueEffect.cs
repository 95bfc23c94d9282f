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
        PositionFeature position => WorstHole(position, strain, moved),
        CoaxialityFeature => 4 * Math.Abs(indexAxis == RotaryAxis.B ? moved.X : moved.Y),
        _ => 0,
    };

    private static double WorstHole(PositionFeature position, double strain, Displacement moved)
    {
        var worst = 0.0;
        for (var i = 0; i < position.Points.Count; i++)
        {
            var (dx, dy) = Hole(position, i, strain, moved);
            worst = Math.Max(worst, Math.Sqrt((dx * dx) + (dy * dy)));
        }

        return 2 * worst;
    }

    /// <summary>Where a hole lies later at 20 °C against where it should be, in µm, in the frame of the part.</summary>
    public static (double X, double Y) Hole(PositionFeature position, int index, double strain, Displacement moved)
    {
        var hole = position.Points[index];
        var (toolX, toolY) = ToolShift(position, index, hole, moved);
        return ((strain * hole.X / 1000.0) + toolX, (strain * hole.Y / 1000.0) + toolY);
    }

    // Where the tool lands in the frame of the part: the table has turned the part under a spindle that drifted in machine axes.
    private static (double X, double Y) ToolShift(PositionFeature position, int index, PatternPoint hole, Displacement moved)
    {
        switch (position.Strategy)
        {
            case CuttingStrategy.TableIndexed when hole.Radius > 0:
                var (cosine, sine) = (hole.X / hole.Radius, hole.Y / hole.Radius);
                return ((moved.X * cosine) - (moved.Y * sine), (moved.X * sine) + (moved.Y * cosine));
            case CuttingStrategy.TwoSided when index >= position.Points.Count / 2:
                return (-moved.X, moved.Y);
            default:
                return (moved.X, moved.Y);
        }
    }
}
