using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>How fast the mean temperature of a part follows each medium, and its pallet.</summary>
/// <remarks>
/// The mean is the weighted sum of one or two first-order nodes, from <see cref="ConductionModes"/>: two in a liquid when Bi is above 0.1, one
/// with the resistance inside the part otherwise. In a gas Bi is below 0.1 for all but thick parts of poor conductors under a fan, where one
/// node is within 6 %. Contact to the pallet comes on top, at the rate h·A/(ρ·c·V) of each node. Immutable, safe across threads.
/// </remarks>
public sealed class PartResponse
{
    /// <summary>A wet surface in moving air loses heat about three times as fast as a dry one (common practice, no source).</summary>
    public const double EvaporationFactor = 3.0;

    private readonly NodePair[] nodes;

    /// <summary>Works out the time constants of a part.</summary>
    /// <param name="part">The part; conductivity, ρ, c, V/A, half thickness and coefficients are positive, that to the pallet zero or more.</param>
    /// <param name="wetShare">Which share of its surface is expected to be wet when it dries, in [0, 1].</param>
    /// <exception cref="ArgumentOutOfRangeException">A property of the part is not positive and finite, or the share is not one.</exception>
    public PartResponse(Part part, double wetShare = 1)
    {
        ArgumentNullException.ThrowIfNull(part);
        if (!(wetShare is >= 0 and <= 1))
        {
            throw new ArgumentOutOfRangeException(nameof(wetShare), wetShare, "The share of a part that is wet lies between 0 and 1.");
        }

        var h = part.HeatTransfer;
        nodes = new NodePair[(int)Medium.Still + 1];
        nodes[(int)Medium.Air] = InGas(part, h.Air);
        nodes[(int)Medium.Fan] = InGas(part, h.Fan);
        nodes[(int)Medium.Mist] = InLiquid(part, h.Mist);
        nodes[(int)Medium.Flood] = InLiquid(part, h.Flood);
        nodes[(int)Medium.Submerged] = InLiquid(part, h.Submerged);
        var faster = 1 + ((EvaporationFactor - 1) * wetShare);
        WetPull = EvaporationFactor / faster;
        nodes[(int)Medium.Wet] = InGas(part, h.Air * faster);
        nodes[(int)Medium.Still] = new NodePair(1, double.PositiveInfinity, double.PositiveInfinity);
        if (!(h.Pallet >= 0) || !double.IsFinite(h.Pallet))
        {
            throw new ArgumentOutOfRangeException(
                nameof(part), h.Pallet, $"Part {part.Number}: heat transfer to the pallet must be 0 (no contact) or more, in W/(m² K).");
        }

        PalletRate = h.Pallet / (part.Material.VolumetricHeatJoulesPerCubicMetreKelvin * part.VolumeToAreaMillimetres * 1e-3);
    }

    /// <summary>The slowest time constant in one medium, contact to the pallet left out.</summary>
    /// <param name="medium">Any medium but <see cref="Medium.Still"/>.</param>
    /// <returns>The time constant, positive.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The medium has no time constant.</exception>
    public TimeSpan TimeConstant(Medium medium) => medium == Medium.Still
        ? throw new ArgumentOutOfRangeException(nameof(medium), medium, "Nothing moves in a still case; ask for a medium.")
        : TimeSpan.FromSeconds(nodes[(int)medium].FirstSeconds);

    /// <summary>
    /// How far one whole of wet share moves the temperature a wet part goes to, as a share of the way from the air to the wet bulb. A share w
    /// takes h·((1 − w)·(Ta − T) + F·w·(Tw − T)); with the rate kept at the expected share this is exact in w for a part near the air.
    /// </summary>
    internal double WetPull { get; }

    internal NodePair this[Medium medium] => nodes[(int)medium];

    /// <summary>How fast the pallet pulls, in 1/s; 0 without contact.</summary>
    internal double PalletRate { get; }

    private static NodePair InGas(Part part, double coefficient)
    {
        var seconds = Checked(part, () => ConductionModes.EffectiveTimeConstant(
            part.Shape, part.HalfThicknessMillimetres * 1e-3, part.VolumeToAreaMillimetres * 1e-3, part.Material, coefficient)).TotalSeconds;
        return new NodePair(1, seconds, seconds);
    }

    private static NodePair InLiquid(Part part, double coefficient)
    {
        var modes = Checked(part, () => ConductionModes.For(
            part.Shape, part.HalfThicknessMillimetres * 1e-3, part.VolumeToAreaMillimetres * 1e-3, part.Material, coefficient));
        var (slow, fast) = (modes[0].TimeConstant.TotalSeconds, modes[^1].TimeConstant.TotalSeconds);
        if (modes.Count == 1)
        {
            return new NodePair(1, slow, fast);
        }

        // What the mean loses goes through the surface: h·A·(T_surface − T_medium) = ρ·c·V·(T_mean − T_medium)/τ of the slow node.
        var throughSurface = LumpedConduction.TimeConstant(part.VolumeToAreaMillimetres * 1e-3, part.Material, coefficient).TotalSeconds;
        return new NodePair(modes[0].Weight, slow, fast) { SurfaceFirstWeight = modes[0].Weight * throughSurface / slow };
    }

    private static T Checked<T>(Part part, Func<T> formula)
    {
        try
        {
            return formula();
        }
        catch (ArgumentOutOfRangeException problem)
        {
            throw new ArgumentOutOfRangeException(
                nameof(part),
                problem.ActualValue,
                $"Part {part.Number}: V/A, half thickness, conductivity, density, specific heat and heat transfer must be positive: {problem.Message}");
        }
    }
}

/// <summary>The one or two nodes that make up the mean temperature, mean = w·first + (1 − w)·second, and the temperature of the surface likewise.</summary>
internal readonly record struct NodePair(double FirstWeight, double FirstSeconds, double SecondSeconds)
{
    public double SecondWeight => 1 - FirstWeight;

    /// <summary>What the slow node counts for at the surface, which is nearer to the medium than the mean; of a single node both are alike.</summary>
    public double SurfaceFirstWeight { get; init; } = FirstWeight;

    public double SurfaceSecondWeight => 1 - SurfaceFirstWeight;
}
