namespace ClimateGuard.Plant;

/// <summary>The ballscrew of a machine as written; null means left out.</summary>
public sealed record ScrewDraft
{
    /// <summary>Place of the fixed bearing along the axis from the datum of the work, in mm.</summary>
    public double? FixedBearingMm { get; init; }

    /// <summary>The axis it drives.</summary>
    public Axis? Axis { get; init; }

    /// <summary>Rise over the air at full load, in K.</summary>
    public double? RiseK { get; init; }
}

/// <summary>A fixture pin as written; null means left out.</summary>
public sealed record FixturePinDraft
{
    /// <summary>Distance of the pin from the datum of the machine, in mm.</summary>
    public double? DistanceMm { get; init; }

    /// <summary>Axis along which a pattern is moved.</summary>
    public Axis? Axis { get; init; }

    /// <summary>Expansion coefficient of the fixture, in µm/(m K).</summary>
    public double? Alpha { get; init; }

    /// <summary>Its standard uncertainty, in µm/(m K).</summary>
    public double? UAlpha { get; init; }
}

/// <summary>A body bent by a gradient as written; null means left out.</summary>
public sealed record GradientBendDraft
{
    /// <summary>What bends.</summary>
    public BendingBody? Body { get; init; }

    /// <summary>Length of a plate, radius of a disc, height of a column, in mm.</summary>
    public double? LengthMm { get; init; }

    /// <summary>Thickness in the direction of the gradient, in mm.</summary>
    public double? ThicknessMm { get; init; }

    /// <summary>Difference across the thickness, in K.</summary>
    public double? AcrossK { get; init; }

    /// <summary>Expansion coefficient, in µm/(m K).</summary>
    public double? Alpha { get; init; }

    /// <summary>Axis along which a column moves the tool.</summary>
    public Axis? Axis { get; init; }

    /// <summary>Standard uncertainty as a share of the bow.</summary>
    public double? RelativeUncertainty { get; init; }
}

/// <summary>A sub-plate as written; null means left out.</summary>
public sealed record BoltedPlateDraft
{
    /// <summary>Length over which it can bow, in mm.</summary>
    public double? LengthMm { get; init; }

    /// <summary>Thickness of the part, in mm.</summary>
    public double? PartThicknessMm { get; init; }

    /// <summary>Thickness of the sub-plate, in mm.</summary>
    public double? SubplateThicknessMm { get; init; }

    /// <summary>Young's modulus of the part, in GPa.</summary>
    public double? PartModulusGpa { get; init; }

    /// <summary>Young's modulus of the sub-plate, in GPa.</summary>
    public double? SubplateModulusGpa { get; init; }

    /// <summary>Expansion coefficient of the sub-plate, in µm/(m K).</summary>
    public double? SubplateAlpha { get; init; }

    /// <summary>Temperature at which it was bolted, in °C.</summary>
    public double? BoltedAtC { get; init; }

    /// <summary>Standard uncertainty as a share of the bow.</summary>
    public double? RelativeUncertainty { get; init; }
}
