using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>How mismatch and drift add up on a feature. A closed set of shapes of the sum.</summary>
/// <remarks>Lengths in m. Immutable.</remarks>
internal abstract record FeatureGeometry
{
    private protected FeatureGeometry()
    {
    }

    /// <summary>The feature is a relation between two cuts, so only drift between them counts, not drift since the datum was probed.</summary>
    public virtual bool DriftCountsFromCutStart => false;

    /// <summary>The effect as a linear function near this mismatch and drift: exact there, and its gradient.</summary>
    public abstract LinearEffect Near(double eps, double x, double y, double z);

    public static FeatureGeometry Of(Feature feature, Machine machine) => feature switch
    {
        // X of a turned part is a radius, so its drift counts twice on a diameter.
        SizeFeature size => new Along(new(size.NominalMillimetres * 1e-3, size.Strategy == CuttingStrategy.Turned ? 2 : 0, 0, 0)),

        // The tool lifted by +D leaves the floor higher: a depth loses what the axis gains.
        DepthFeature depth => new Along(Axial(depth.NominalMillimetres, depth.Axis, -1)),
        DistanceFeature distance => new BetweenTwoCuts(Axial(distance.NominalMillimetres, distance.Axis, 1)),
        CoaxialityFeature => new HalfTurn(machine.IndexAxis),
        PositionFeature { Strategy: CuttingStrategy.TableIndexed or CuttingStrategy.Turned } position => new Indexed(Farthest(position.Points)),
        PositionFeature position => new Pattern(
            OutermostPoints.Of(position.Points), position.Strategy == CuttingStrategy.TwoSided ? IndexedSide.AfterHalfTurn(machine.IndexAxis) : null),
        _ => throw new ArgumentOutOfRangeException(nameof(feature), feature.Kind, "This kind of feature has no effect model."),
    };

    private static double Farthest(IReadOnlyList<PatternPoint> points) => points.Max(p => p.Radius) * 1e-3;

    private static LinearEffect Axial(double nominalMillimetres, Axis axis, double sign) => new(
        nominalMillimetres * 1e-3,
        axis == Axis.X ? sign : 0,
        axis == Axis.Y ? sign : 0,
        axis == Axis.Z ? sign : 0);

    /// <summary>A length along one direction.</summary>
    internal record Along(LinearEffect Effect) : FeatureGeometry
    {
        public override LinearEffect Near(double eps, double x, double y, double z) => Effect;
    }

    /// <summary>A distance between two features cut one after the other.</summary>
    internal sealed record BetweenTwoCuts(LinearEffect Effect) : Along(Effect)
    {
        public override bool DriftCountsFromCutStart => true;
    }

    /// <summary>Two bores from both sides: a pivot off by D puts the second bore 2·D from the first, a coaxiality of 4·D.</summary>
    internal sealed record HalfTurn(RotaryAxis IndexAxis) : FeatureGeometry
    {
        public override LinearEffect Near(double eps, double x, double y, double z)
        {
            var (across, along) = IndexAxis switch
            {
                RotaryAxis.B => (x, 0.0),
                RotaryAxis.A => (0.0, y),
                _ => (x, y),
            };
            var length = Math.Sqrt((across * across) + (along * along));
            return length > 0
                ? new(0, 4 * across / length, 4 * along / length, 0)
                : new(0, IndexAxis == RotaryAxis.A ? 0 : 4, IndexAxis == RotaryAxis.A ? 4 : 0, 0);
        }
    }

    /// <summary>Holes at one radius of the spindle, the table indexing: X drift is radial, Y drift tangential, at every hole alike.</summary>
    internal sealed record Indexed(double RadiusMetres) : FeatureGeometry
    {
        public override LinearEffect Near(double eps, double x, double y, double z)
        {
            var radial = (RadiusMetres * eps) + x;
            var length = Math.Sqrt((radial * radial) + (y * y));
            var (cos, sin) = length > 0 ? (radial / length, y / length) : (1.0, 0.0);
            return new(2 * cos * RadiusMetres, 2 * cos, 2 * sin, 0);
        }
    }

    /// <summary>Holes at points r from the datum, the axes moving: hole i is off by eps·rᵢ + D; two-sided, half of them with D as the half-turn leaves it.</summary>
    internal sealed record Pattern(IReadOnlyList<PatternPoint> OuterMillimetres, IndexedSide? OtherSide) : FeatureGeometry
    {
        public override LinearEffect Near(double eps, double x, double y, double z)
        {
            var worst = Worst(eps, x, y, IndexedSide.First, (-1, default));
            if (OtherSide is { } other)
            {
                worst = Worst(eps, x, y, other, worst);
            }

            return worst.Near;
        }

        private (double Squared, LinearEffect Near) Worst(double eps, double x, double y, IndexedSide side, (double Squared, LinearEffect Near) worst)
        {
            foreach (var point in OuterMillimetres)
            {
                var rx = point.X * 1e-3;
                var ry = point.Y * 1e-3;
                var dx = (eps * rx) + (side.X * x);
                var dy = (eps * ry) + (side.Y * y);
                var squared = (dx * dx) + (dy * dy);
                if (squared > worst.Squared)
                {
                    worst = (squared, Gradient(rx, ry, dx, dy, squared, side));
                }
            }

            return worst;
        }

        private static LinearEffect Gradient(double rx, double ry, double dx, double dy, double squared, IndexedSide side)
        {
            var length = Math.Sqrt(squared);
            var radius = Math.Sqrt((rx * rx) + (ry * ry));
            var (nx, ny) = length > 0 ? (dx / length, dy / length) : radius > 0 ? (rx / radius, ry / radius) : (1.0, 0.0);
            return new(2 * ((nx * rx) + (ny * ry)), 2 * nx * side.X, 2 * ny * side.Y, 0);
        }
    }
}
