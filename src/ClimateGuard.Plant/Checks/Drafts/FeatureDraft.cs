namespace ClimateGuard.Plant;

/// <summary>A feature as written, of whatever kind; null means left out.</summary>
public sealed record FeatureDraft
{
    /// <summary>The id.</summary>
    public string? Id { get; init; }

    /// <summary>The kind.</summary>
    public FeatureKind? Kind { get; init; }

    /// <summary>The nominal, in mm.</summary>
    public double? NominalMm { get; init; }

    /// <summary>The tolerance, in mm.</summary>
    public double? ToleranceMm { get; init; }

    /// <summary>The axis it is cut along.</summary>
    public Axis? Axis { get; init; }

    /// <summary>The datum of a position.</summary>
    public DatumKind? Datum { get; init; }

    /// <summary>Holes on a circle.</summary>
    public BoltCircleDraft? BoltCircle { get; init; }

    /// <summary>Holes as pairs of x and y from the datum, in mm.</summary>
    public IReadOnlyList<IReadOnlyList<double?>?>? Points { get; init; }

    /// <summary>Budget, in µm.</summary>
    public double? BudgetUm { get; init; }

    /// <summary>Budget, as a share of the tolerance.</summary>
    public double? BudgetShare { get; init; }

    /// <summary>How it is cut.</summary>
    public CuttingStrategy? Strategy { get; init; }

    /// <summary>The material condition.</summary>
    public MaterialCondition? Modifier { get; init; }

    /// <summary>How long its finish cut takes, in min.</summary>
    public double? FinishMinutes { get; init; }

    /// <summary>The pin of the fixture that locates it.</summary>
    public FixturePinDraft? FixturePin { get; init; }

    /// <summary>What a gradient bends.</summary>
    public GradientBendDraft? Bending { get; init; }

    /// <summary>The sub-plate it is bolted to.</summary>
    public BoltedPlateDraft? Bolted { get; init; }
}

/// <summary>The kinds of feature a plant file may name.</summary>
public enum FeatureKind
{
    /// <summary>A size, such as a bore diameter.</summary>
    Size,

    /// <summary>A depth or length along one axis.</summary>
    Depth,

    /// <summary>A distance between two features.</summary>
    Distance,

    /// <summary>The position of a pattern of holes.</summary>
    Position,

    /// <summary>Coaxiality of two bores cut from both sides.</summary>
    Coaxiality,
}

/// <summary>Holes on a circle as written; null means left out.</summary>
public sealed record BoltCircleDraft
{
    /// <summary>Radius, in mm.</summary>
    public double? RadiusMm { get; init; }

    /// <summary>Number of holes.</summary>
    public double? Count { get; init; }

    /// <summary>Angle of the first hole from the x axis, counter-clockwise, in degrees.</summary>
    public double? FirstAngleDeg { get; init; }
}
