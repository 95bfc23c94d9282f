using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>A feature as the fast paths see it.</summary>
/// <remarks>What is recorded is |E| in µm, or for a vector the square of its length; <see cref="Limit"/> is in the same measure.</remarks>
internal sealed class FeatureLane
{
    public FeatureLane(FeatureModel effect)
    {
        Geometry = effect.Geometry;
        FromCutStart = effect.Geometry.DriftCountsFromCutStart;
        Limit = effect.BudgetMicrometres;
        Effect = effect;
        switch (effect.Terms.Count > 0 ? null : effect.Geometry)
        {
            case FeatureGeometry.Along along:
                Kind = LaneKind.Along;
                Linear = along.Effect;
                (OnlyAxis, AlongOnlyAxis) = Only(along.Effect);
                break;
            case FeatureGeometry.Indexed indexed:
                Kind = LaneKind.Plane;
                RadiusMetres = indexed.RadiusMetres;
                (TakesX, TakesY) = (1, 1);
                Limit = Squared(effect.BudgetMicrometres / 2);
                break;
            case FeatureGeometry.HalfTurn turn:
                Kind = LaneKind.Plane;
                (TakesX, TakesY) = (turn.IndexAxis == RotaryAxis.A ? 0 : 1, turn.IndexAxis == RotaryAxis.B ? 0 : 1);
                Limit = Squared(effect.BudgetMicrometres / 4);
                break;
            case FeatureGeometry.Pattern pattern:
                Kind = LaneKind.Pattern;
                OtherSide = pattern.OtherSide;
                Corners = [.. pattern.OuterMillimetres.Select(point => (point.X * 1e-3, point.Y * 1e-3))];
                RadiusMetres = pattern.OuterMillimetres.Max(point => point.Radius) * 1e-3;
                Limit = Squared(effect.BudgetMicrometres / 2);

                // A little inside, so that rounding of the bound never hides a corner.
                SafeRadius = effect.BudgetMicrometres / 2 * (1 - 1e-9);
                break;
            default:
                Kind = LaneKind.OneByOne;
                break;
        }
    }

    public LaneKind Kind { get; }

    public FeatureModel Effect { get; }

    public FeatureGeometry Geometry { get; }

    public bool FromCutStart { get; }

    public double Limit { get; }

    public double SafeRadius { get; }

    public LinearEffect Linear { get; }

    /// <summary>The one axis a linear feature feels, 0 when it feels none, −1 when it feels several.</summary>
    public int OnlyAxis { get; }

    public double AlongOnlyAxis { get; }

    public double RadiusMetres { get; }

    public double TakesX { get; }

    public double TakesY { get; }

    /// <summary>How the drift lands on the second half of a two-sided pattern, or null.</summary>
    public IndexedSide? OtherSide { get; }

    public (double X, double Y)[] Corners { get; } = [];

    private static double Squared(double value) => value * value;

    private static (int Axis, double Along) Only(LinearEffect effect)
    {
        ReadOnlySpan<double> along = [effect.X, effect.Y, effect.Z];
        var axis = Math.Max(0, along.IndexOfAnyExcept(0.0));
        return along[(axis + 1)..].ContainsAnyExcept(0.0) ? (-1, 0) : (axis, along[axis]);
    }
}

/// <summary>Which loop a feature runs in.</summary>
internal enum LaneKind
{
    /// <summary>One that has no loop of its own.</summary>
    OneByOne,

    /// <summary>A length along directions.</summary>
    Along,

    /// <summary>One vector in X and Y: holes at one radius of the spindle, or two bores with a half-turn between.</summary>
    Plane,

    /// <summary>Holes around a datum.</summary>
    Pattern,
}
