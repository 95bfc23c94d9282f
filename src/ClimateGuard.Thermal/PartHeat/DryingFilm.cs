namespace ClimateGuard.Thermal;

/// <summary>The film of coolant that is left on a part: it thins as it dries, and what it takes of the part's heat falls with it.</summary>
/// <remarks>
/// Thin places dry first, so the share of the surface that is wet falls about as exp(−t/τ) (common practice, no source). It is taken as constant over
/// pieces of five minutes, each with its own mean, so that readable and fast paths can share it.
/// </remarks>
public static class DryingFilm
{
    private const double PieceMinutes = 5;

    /// <summary>What surrounds a part in the piece of its drying that it is in.</summary>
    /// <param name="around">What would surround it with the film that was left when the coolant stopped; another medium than wet stays as it is.</param>
    /// <param name="left">How long until it counts as dry; zero or less for dry by now.</param>
    /// <param name="noise">The drying time, and how long it counts as wet.</param>
    /// <returns>The same, with the wet-bulb temperature as far away as the film is left; in air when it is dry.</returns>
    public static Surroundings Covering(in Surroundings around, TimeSpan left, ThermalNoise noise)
    {
        ArgumentNullException.ThrowIfNull(noise);
        if (around.Medium != Medium.Wet)
        {
            return around;
        }

        if (left <= TimeSpan.Zero)
        {
            return around with { Medium = Medium.Air };
        }

        var begin = PieceMinutes * Piece(left, noise);
        var drying = noise.DryingTime.TotalMinutes;
        var share = drying / PieceMinutes * (Math.Exp(-begin / drying) - Math.Exp(-(begin + PieceMinutes) / drying));
        return around with { WetBulbCelsius = around.AirCelsius + (share * (around.WetBulbCelsius - around.AirCelsius)) };
    }

    /// <summary>Moves a state through a stretch of time; a part that dries on the way is so wet in each piece as its film is thick.</summary>
    /// <param name="model">The model of the machine with its part.</param>
    /// <param name="state">Changed in place.</param>
    /// <param name="around">What surrounds it, with the film that was left when the coolant stopped.</param>
    /// <param name="left">How long until a wet part counts as dry.</param>
    /// <param name="airCelsius">The air of the stretch, in °C.</param>
    /// <param name="stretch">How long, zero or more.</param>
    public static void Advance(
        ThermalModel model, ThermalState state, in Surroundings around, TimeSpan left, double airCelsius, TimeSpan stretch)
    {
        ArgumentNullException.ThrowIfNull(model);
        for (var gone = TimeSpan.Zero; gone < stretch;)
        {
            var rest = left - gone;
            var piece = around.Medium == Medium.Wet && rest > TimeSpan.Zero ? UntilThinner(rest, model.Noise) : stretch;
            piece = piece < stretch - gone ? piece : stretch - gone;
            model.Advance(state, Covering(around, rest, model.Noise) with { AirCelsius = airCelsius }, piece);
            gone += piece;
        }
    }

    /// <summary>How long the piece that a part is in goes on, at most until it counts as dry.</summary>
    /// <param name="left">How long until it counts as dry, above zero.</param>
    /// <param name="noise">How long a part counts as wet.</param>
    public static TimeSpan UntilThinner(TimeSpan left, ThermalNoise noise)
    {
        ArgumentNullException.ThrowIfNull(noise);
        var next = left - noise.WetFor + TimeSpan.FromMinutes(PieceMinutes * (Piece(left, noise) + 1));
        return next < left ? next : left;
    }

    /// <summary>The mean share of the film that is left while a part counts as wet, in (0, 1].</summary>
    internal static double MeanShare(ThermalNoise noise)
    {
        var ratio = noise.WetFor / noise.DryingTime;
        return ratio < 1e-6 ? 1 : (1 - Math.Exp(-ratio)) / ratio;
    }

    // A moment at the edge belongs to the piece that begins there, also after rounding.
    private static int Piece(TimeSpan left, ThermalNoise noise) =>
        Math.Max(0, (int)Math.Floor(((noise.WetFor - left).TotalMinutes / PieceMinutes) + 1e-9));
}
