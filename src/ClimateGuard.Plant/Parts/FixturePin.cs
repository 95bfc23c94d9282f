namespace ClimateGuard.Plant;

/// <summary>A part located by a pin of its fixture, where the work offset comes from the fixture and not from probing the part.</summary>
/// <remarks>The length between the machine's datum and the pin then stands in the effect: q·(αs·dTs − αf·dTf). Immutable.</remarks>
public sealed record FixturePin
{
    /// <summary>Distance q of the pin from the datum of the machine, in mm, on the side of the feature.</summary>
    public required double DistanceMillimetres { get; init; }

    /// <summary>Axis along which a pattern is moved; other features use their own.</summary>
    public Axis Axis { get; init; } = Axis.X;

    /// <summary>Expansion coefficient of the fixture, in µm/(m K), in [-2, 40].</summary>
    public double AlphaMicrometresPerMetreKelvin { get; init; } = 11.5;

    /// <summary>Standard uncertainty of the coefficient, in µm/(m K).</summary>
    public double UAlphaMicrometresPerMetreKelvin { get; init; } = 0.5;
}
