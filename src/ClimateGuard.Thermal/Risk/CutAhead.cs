namespace ClimateGuard.Thermal;

/// <summary>A finish cut that would start now, and what is expected to surround it.</summary>
/// <remarks>Equality by members. Immutable.</remarks>
public sealed record CutAhead
{
    /// <summary>The surroundings at the start; they stay but for the air, which follows <see cref="AirCelsius"/>, and a wet part, which dries.</summary>
    public required Surroundings Surroundings { get; init; }

    /// <summary>How long a wet part stays wet from now on, after which it is in air; zero when it is blown dry, null for the model's own value.</summary>
    public TimeSpan? WetFor { get; init; }

    /// <summary>How long the cut takes, or null for each feature's own time.</summary>
    public TimeSpan? Planned { get; init; }

    /// <summary>The air expected at each minute from the start, in °C; empty when it is expected to stay; the last value stays on.</summary>
    public IReadOnlyList<double> AirCelsius { get; init; } = [];

    /// <summary>Standard deviation to which the air departs from what is expected, in K; null for the model's own value.</summary>
    public double? AirSpreadKelvins { get; init; }

    /// <summary>The question's own seed: the same question gets the same answer.</summary>
    public int Seed { get; init; } = 1;

    /// <summary>How many paths, in [100, 100 000].</summary>
    public int Paths { get; init; } = 1000;

    /// <summary>How long from now until a wet part is in air.</summary>
    internal TimeSpan WetUntil(ThermalNoise noise) => WetFor ?? noise.WetFor;

    /// <summary>How far the air may depart from what is expected after a long time, in K.</summary>
    internal double AirSpread(ThermalNoise noise) => AirSpreadKelvins ?? noise.AirForecastKelvins;

    /// <summary>The surroundings expected in one minute of the cut.</summary>
    internal Surroundings At(double minutes, ThermalNoise noise)
    {
        var around = Covering(TimeSpan.FromMinutes(minutes), noise);
        return AirCelsius.Count == 0 ? around : around with { AirCelsius = AirCelsius[Math.Clamp((int)minutes, 0, AirCelsius.Count - 1)] };
    }

    /// <summary>What covers the part at a time from now, with the air of the start: a film that thins, then air.</summary>
    internal Surroundings Covering(TimeSpan time, ThermalNoise noise) => DryingFilm.Covering(Surroundings, WetUntil(noise) - time, noise);

    /// <summary>Moves an expectation through a stretch of the cut.</summary>
    internal void Advance(ThermalModel model, ThermalState state, double fromMinutes, TimeSpan stretch) => DryingFilm.Advance(
        model,
        state,
        Surroundings,
        WetUntil(model.Noise) - TimeSpan.FromMinutes(fromMinutes),
        At(fromMinutes + (stretch.TotalMinutes / 2), model.Noise).AirCelsius,
        stretch);
}
