namespace ClimateGuard.Plant;

/// <summary>A material with what temperature needs to know of it, and where each number comes from.</summary>
public sealed record Material
{
    /// <summary>The id.</summary>
    public required string Id { get; init; }

    /// <summary>The name people use.</summary>
    public string Name { get; init; } = "";

    /// <summary>Expansion coefficient near 20 °C, in µm/(m K), in [-2, 40].</summary>
    public required double AlphaMicrometresPerMetreKelvin { get; init; }

    /// <summary>Standard uncertainty (k = 1) of the coefficient, in µm/(m K).</summary>
    public double UAlphaMicrometresPerMetreKelvin { get; init; } = 0.5;

    /// <summary>Thermal conductivity, in W/(m K).</summary>
    public required double ConductivityWattsPerMetreKelvin { get; init; }

    /// <summary>Density, in kg/m³.</summary>
    public required double DensityKilogramsPerCubicMetre { get; init; }

    /// <summary>Specific heat, in J/(kg K).</summary>
    public required double SpecificHeatJoulesPerKilogramKelvin { get; init; }

    /// <summary>Where the numbers come from.</summary>
    public string Source { get; init; } = "not stated";

    /// <summary>Whether they are defaults, measured or fitted.</summary>
    public Provenance Provenance { get; init; } = Provenance.Default;

    /// <summary>ρ·c, in J/(m³ K).</summary>
    public double VolumetricHeatJoulesPerCubicMetreKelvin => DensityKilogramsPerCubicMetre * SpecificHeatJoulesPerKilogramKelvin;

    /// <summary>k/(ρ·c), in m²/s.</summary>
    public double DiffusivitySquareMetresPerSecond => ConductivityWattsPerMetreKelvin / VolumetricHeatJoulesPerCubicMetreKelvin;
}
