namespace ClimateGuard.Plant;

/// <summary>A part bolted flat to a sub-plate of another material: both bow like a bimetal strip when the temperature changes after bolting.</summary>
/// <remarks>A feature along the thickness feels the sag in the middle. Immutable.</remarks>
public sealed record BoltedPlate
{
    /// <summary>Length over which it can bow, in mm.</summary>
    public required double LengthMillimetres { get; init; }

    /// <summary>Thickness of the part, in mm.</summary>
    public required double PartThicknessMillimetres { get; init; }

    /// <summary>Thickness of the sub-plate, in mm.</summary>
    public required double SubplateThicknessMillimetres { get; init; }

    /// <summary>Young's modulus of the part, in GPa; steel 205, aluminium 70.</summary>
    public double PartModulusGigapascals { get; init; } = 205;

    /// <summary>Young's modulus of the sub-plate, in GPa.</summary>
    public double SubplateModulusGigapascals { get; init; } = 205;

    /// <summary>Expansion coefficient of the sub-plate, in µm/(m K), in [-2, 40].</summary>
    public double SubplateAlphaMicrometresPerMetreKelvin { get; init; } = 11.5;

    /// <summary>Temperature at which it was bolted, in °C.</summary>
    public double BoltedAtCelsius { get; init; } = 20;

    /// <summary>Standard uncertainty as a share of the bow; 0.3 when nobody has measured it (common practice, no source).</summary>
    public double RelativeUncertainty { get; init; } = 0.3;
}
