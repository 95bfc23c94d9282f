namespace ClimateGuard.Plant;

/// <summary>A feature that must hold: what it is, its tolerance, the share temperature may take. A closed set of kinds.</summary>
/// <remarks>A positive effect means: later, at 20 °C, the feature is larger or farther from its datum than nominal.</remarks>
public abstract record Feature
{
    private protected Feature()
    {
    }

    /// <summary>The id, unique in the part.</summary>
    public required string Id { get; init; }

    /// <summary>The tolerance in mm: position and coaxiality the diameter of the zone, others the plus-or-minus half width.</summary>
    public required double ToleranceMillimetres { get; init; }

    /// <summary>What temperature may take of the tolerance.</summary>
    public required BudgetRule Budget { get; init; }

    /// <summary>How the feature is cut.</summary>
    public CuttingStrategy Strategy { get; init; } = CuttingStrategy.Interpolated;

    /// <summary>The material condition.</summary>
    public MaterialCondition Modifier { get; init; } = MaterialCondition.Rfs;

    /// <summary>How long its finish cut takes.</summary>
    public TimeSpan FinishDuration { get; init; } = TimeSpan.FromMinutes(15);

    /// <summary>The pin of the fixture that locates it, or null when the part itself is probed.</summary>
    public FixturePin? FixturePin { get; init; }

    /// <summary>What a gradient bends, or null.</summary>
    public GradientBend? Bending { get; init; }

    /// <summary>The sub-plate it is bolted to, or null.</summary>
    public BoltedPlate? Bolted { get; init; }

    /// <summary>The word of the plant file for its kind.</summary>
    public abstract string Kind { get; }
}

/// <summary>A size, such as a bore diameter.</summary>
public sealed record SizeFeature : Feature
{
    /// <summary>Nominal size, in mm.</summary>
    public required double NominalMillimetres { get; init; }

    /// <inheritdoc/>
    public override string Kind => "size";
}

/// <summary>A depth or length along one axis, from a probed face.</summary>
public sealed record DepthFeature : Feature
{
    /// <summary>Nominal depth, in mm.</summary>
    public required double NominalMillimetres { get; init; }

    /// <summary>The axis along which it is cut; drift of that axis goes into it with the opposite sign.</summary>
    public Axis Axis { get; init; } = Axis.Z;

    /// <inheritdoc/>
    public override string Kind => "depth";
}

/// <summary>A distance between two features cut one after the other.</summary>
public sealed record DistanceFeature : Feature
{
    /// <summary>Nominal distance, in mm.</summary>
    public required double NominalMillimetres { get; init; }

    /// <summary>The axis along which the two lie.</summary>
    public Axis Axis { get; init; } = Axis.X;

    /// <inheritdoc/>
    public override string Kind => "distance";
}

/// <summary>The position of a pattern of holes; the effect is diametral, 2·|d| of the worst hole.</summary>
public sealed record PositionFeature : Feature
{
    /// <summary>What the positions are stated from.</summary>
    public DatumKind Datum { get; init; } = DatumKind.Axis;

    /// <summary>The holes from the datum, in mm.</summary>
    public required IReadOnlyList<PatternPoint> Points { get; init; }

    /// <summary>The circle the holes were stated on, or null when they were stated one by one.</summary>
    public BoltCircle? Circle { get; init; }

    /// <inheritdoc/>
    public override string Kind => "position";
}

/// <summary>Coaxiality of two bores cut from both sides with a half-turn of the table; the effect is diametral.</summary>
public sealed record CoaxialityFeature : Feature
{
    /// <inheritdoc/>
    public override string Kind => "coaxiality";
}

/// <summary>A hole, from its datum, in mm.</summary>
/// <param name="X">Along the first axis of the part, in mm.</param>
/// <param name="Y">Along the second axis of the part, in mm.</param>
public readonly record struct PatternPoint(double X, double Y)
{
    /// <summary>Distance from the datum, in mm.</summary>
    public double Radius => Math.Sqrt((X * X) + (Y * Y));
}

/// <summary>Holes evenly spaced on a circle about the datum.</summary>
/// <param name="RadiusMillimetres">Radius, in mm.</param>
/// <param name="Count">Number of holes, one or more.</param>
/// <param name="FirstAngleDegrees">Angle of the first hole from the x axis, counter-clockwise, in degrees.</param>
public sealed record BoltCircle(double RadiusMillimetres, int Count, double FirstAngleDegrees)
{
    /// <summary>The holes in order, counter-clockwise from the first.</summary>
    public IReadOnlyList<PatternPoint> Points()
    {
        var points = new PatternPoint[Count];
        for (var i = 0; i < Count; i++)
        {
            var (sine, cosine) = Math.SinCos((FirstAngleDegrees + (360.0 * i / Count)) * Math.PI / 180.0);
            points[i] = new PatternPoint(RadiusMillimetres * cosine, RadiusMillimetres * sine);
        }

        return points;
    }
}

/// <summary>What positions are stated from.</summary>
public enum DatumKind
{
    /// <summary>The axis of the part.</summary>
    Axis,

    /// <summary>A bore of the part.</summary>
    Bore,

    /// <summary>Two edges of the part.</summary>
    Corner,
}

/// <summary>How a feature is cut; it decides what a machine's drift looks like on the part.</summary>
public enum CuttingStrategy
{
    /// <summary>X and Y move, the table stands.</summary>
    Interpolated,

    /// <summary>The table indexes, the spindle stays at one radius.</summary>
    TableIndexed,

    /// <summary>The part turns; X is a radius.</summary>
    Turned,

    /// <summary>Two halves with a half-turn of the table between.</summary>
    TwoSided,
}

/// <summary>The material condition of a geometric tolerance (ISO 2692).</summary>
public enum MaterialCondition
{
    /// <summary>Regardless of feature size: no bonus.</summary>
    Rfs,

    /// <summary>Maximum material.</summary>
    Mmc,

    /// <summary>Least material.</summary>
    Lmc,
}

/// <summary>What temperature may take of a tolerance: an amount in µm, or a share of the tolerance.</summary>
/// <param name="Micrometres">The amount in µm, or null when a share is given.</param>
/// <param name="Share">The share of the tolerance in (0, 1], or null when an amount is given.</param>
public sealed record BudgetRule(double? Micrometres, double? Share)
{
    /// <summary>The share used for a standard part when a feature states neither; common practice, no source.</summary>
    public const double DefaultShare = 0.30;

    /// <summary>The share used when a feature states neither: 0.20 for a critical part, 0.40 where rework is possible; common practice, no source.</summary>
    public static double DefaultShareFor(PartClass partClass) => partClass switch
    {
        PartClass.Critical => 0.20,
        PartClass.Reworkable => 0.40,
        _ => DefaultShare,
    };

    /// <summary>An amount in µm.</summary>
    public static BudgetRule Absolute(double micrometres) => new(micrometres, null);

    /// <summary>A share of the tolerance.</summary>
    public static BudgetRule OfTolerance(double share) => new(null, share);

    /// <summary>The budget in µm for a tolerance in mm (of <see cref="Feature.ToleranceMillimetres"/>).</summary>
    public double MicrometresFor(double toleranceMillimetres) =>
        Micrometres ?? ((Share ?? DefaultShare) * toleranceMillimetres * 1000.0);
}
