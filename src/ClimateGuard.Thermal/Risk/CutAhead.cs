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

    /// <summary>The question's own seed: the same question gets the same answer.</summary>
    public int Seed { get; init; } = 1;

    /// <summary>How many paths, in [100, 100 000].</summary>
    public int Paths { get; init; } = 1000;

    /// <summary>How long from now until a wet part is in air.</summary>
    internal TimeSpan WetUntil(ThermalNoise noise) => WetFor ?? noise.WetFor;

    /// <summary>The surroundings expected in one minute of the cut.</summary>
    internal Surroundings At(double minutes, ThermalNoise noise)
    {
        var around = Covering(TimeSpan.FromMinutes(minutes), noise);
        return AirCelsius.Count == 0 ? around : around with { AirCelsius = AirCelsius[Math.Clamp((int)minutes, 0, AirCelsius.Count - 1)] };
    }

    /// <summary>What covers the part at a time from now, with the air of the start: a film that thins, then air.</summary>
    internal Surroundings Covering(TimeSpan time, ThermalNoise noise)
    {
        var left = WetUntil(noise) - time;
        return Surroundings.Medium != Medium.Wet ? Surroundings
            : left > TimeSpan.Zero ? DryingFilm.Around(Surroundings, left, noise)
            : Surroundings with { Medium = Medium.Air };
    }

    /// <summary>Moves an expectation through a stretch of the cut; a part that dries on the way is so wet in each piece as its film is thick.</summary>
    internal void Advance(ThermalModel model, ThermalState state, double fromMinutes, TimeSpan stretch)
    {
        var air = At(fromMinutes + (stretch.TotalMinutes / 2), model.Noise).AirCelsius;
        var (at, end) = (TimeSpan.FromMinutes(fromMinutes), TimeSpan.FromMinutes(fromMinutes) + stretch);
        while (at < end)
        {
            var left = WetUntil(model.Noise) - at;
            var until = Surroundings.Medium == Medium.Wet && left > TimeSpan.Zero ? at + DryingFilm.UntilThinner(left, model.Noise) : end;
            until = until > end ? end : until;
            model.Advance(state, Covering(at, model.Noise) with { AirCelsius = air }, until - at);
            at = until;
        }
    }
}
