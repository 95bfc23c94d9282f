using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>How fast the mean temperature of a part follows each medium, and its pallet.</summary>
/// <remarks>
/// The mean is the weighted sum of one or two first-order nodes. With one node τ = ρc·(V/A)/h + 4·Lh²/(π²·a); the second term is the
/// resistance inside the part, from the first eigenvalue of a slab (Incropera, Fundamentals of Heat and Mass Transfer, ch. 5; within 6 % of
/// the exact root up to Bi = 10). Immutable, safe across threads.
/// </remarks>
public sealed class PartResponse
{
    /// <summary>A wet surface in moving air loses heat about three times as fast as a dry one (common practice, no source).</summary>
    public const double EvaporationFactor = 3.0;

    private readonly NodePair[] nodes;

    /// <summary>Works out the time constants of a part.</summary>
    /// <param name="part">The part; conductivity, ρ, c, V/A, half thickness and coefficients are positive.</param>
    /// <exception cref="ArgumentOutOfRangeException">A property of the part is not positive and finite.</exception>
    public PartResponse(Part part)
    {
        ArgumentNullException.ThrowIfNull(part);
        var h = part.HeatTransfer;
        nodes = new NodePair[(int)Medium.Still + 1];
        nodes[(int)Medium.Air] = Nodes(part, h.Air);
        nodes[(int)Medium.Fan] = Nodes(part, h.Fan);
        nodes[(int)Medium.Mist] = Nodes(part, h.Mist);
        nodes[(int)Medium.Flood] = Nodes(part, h.Flood);
        nodes[(int)Medium.Submerged] = Nodes(part, h.Submerged);
        nodes[(int)Medium.Wet] = Nodes(part, h.Air * EvaporationFactor);
        nodes[(int)Medium.Still] = new NodePair(1, double.PositiveInfinity, double.PositiveInfinity);
    }

    /// <summary>The slowest time constant in one medium.</summary>
    /// <param name="medium">Any medium but <see cref="Medium.Still"/>.</param>
    /// <returns>The time constant, positive.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The medium has no time constant.</exception>
    public TimeSpan TimeConstant(Medium medium) => medium == Medium.Still
        ? throw new ArgumentOutOfRangeException(nameof(medium), medium, "Nothing moves in a still case; ask for a medium.")
        : TimeSpan.FromSeconds(nodes[(int)medium].FirstSeconds);

    /// <summary>The lumped time constant of a part for a heat transfer coefficient.</summary>
    /// <param name="part">The part.</param>
    /// <param name="coefficient">h, in W/(m² K), positive.</param>
    /// <returns>τ in seconds, positive.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The result would not be positive and finite.</exception>
    public static double TimeConstantSeconds(Part part, double coefficient)
    {
        ArgumentNullException.ThrowIfNull(part);
        var outside = part.Material.VolumetricHeatJoulesPerCubicMetreKelvin * part.VolumeToAreaMillimetres * 1e-3 / coefficient;
        var half = part.HalfThicknessMillimetres * 1e-3;
        var inside = 4 * half * half / (Math.PI * Math.PI * part.Material.DiffusivitySquareMetresPerSecond);
        var total = outside + inside;
        return double.IsFinite(total) && total > 0
            ? total
            : throw new ArgumentOutOfRangeException(
                nameof(part), total, $"Part {part.Number}: V/A, half thickness, conductivity, density, specific heat and heat transfer must be positive.");
    }

    internal NodePair this[Medium medium] => nodes[(int)medium];

    private static NodePair Nodes(Part part, double coefficient)
    {
        var seconds = TimeConstantSeconds(part, coefficient);
        return new NodePair(1, seconds, seconds);
    }
}

/// <summary>The one or two nodes that make up the mean temperature: mean = w·first + (1 − w)·second.</summary>
internal readonly record struct NodePair(double FirstWeight, double FirstSeconds, double SecondSeconds)
{
    public double SecondWeight => 1 - FirstWeight;
}
