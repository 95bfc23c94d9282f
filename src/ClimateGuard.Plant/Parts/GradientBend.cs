namespace ClimateGuard.Plant;

/// <summary>A body that bends because one side is warmer than the other, as far as a feature feels it.</summary>
/// <remarks>Immutable.</remarks>
public sealed record GradientBend
{
    /// <summary>What bends.</summary>
    public required BendingBody Body { get; init; }

    /// <summary>Length between supports of a plate, radius of a disc, height of a column, in mm.</summary>
    public required double LengthMillimetres { get; init; }

    /// <summary>Thickness in the direction of the gradient, in mm.</summary>
    public required double ThicknessMillimetres { get; init; }

    /// <summary>
    /// Difference across the thickness, in K, with the sign that makes the effect positive; for a column how much it has changed since the
    /// datum was probed.
    /// </summary>
    public required double AcrossKelvins { get; init; }

    /// <summary>Expansion coefficient, in µm/(m K); null for that of the part, for a column 11.</summary>
    public double? AlphaMicrometresPerMetreKelvin { get; init; }

    /// <summary>Axis along which a column moves the tool.</summary>
    public Axis Axis { get; init; } = Axis.X;

    /// <summary>Standard uncertainty as a share of the bow; 0.4 when nobody has measured it (common practice 0.3 to 0.5, no source).</summary>
    public double RelativeUncertainty { get; init; } = 0.4;
}

/// <summary>What a gradient bends.</summary>
public enum BendingBody
{
    /// <summary>A plate on its supports: the middle rises by κ·L²/8.</summary>
    Plate,

    /// <summary>A disc: the middle rises over the edge by κ·R²/2.</summary>
    Disc,

    /// <summary>A column of the machine: its head moves by κ·H²/2.</summary>
    Column,
}
