namespace ClimateGuard.Thermal;

/// <summary>A finish cut that would start now, and what is expected to surround it.</summary>
/// <remarks>Equality by members. Immutable.</remarks>
public sealed record CutAhead
{
    /// <summary>The surroundings at the start; they stay but for the air, which follows <see cref="AirCelsius"/>.</summary>
    public required Surroundings Surroundings { get; init; }

    /// <summary>How long the cut takes, or null for each feature's own time.</summary>
    public TimeSpan? Planned { get; init; }

    /// <summary>The air expected at each minute from the start, in °C; empty when it is expected to stay; the last value stays on.</summary>
    public IReadOnlyList<double> AirCelsius { get; init; } = [];

    /// <summary>The question's own seed: the same question gets the same answer.</summary>
    public int Seed { get; init; } = 1;

    /// <summary>How many paths, in [100, 100 000].</summary>
    public int Paths { get; init; } = 1000;

    /// <summary>The surroundings expected in one minute of the cut.</summary>
    internal Surroundings At(double minutes) => AirCelsius.Count == 0
        ? Surroundings
        : Surroundings with { AirCelsius = AirCelsius[Math.Clamp((int)minutes, 0, AirCelsius.Count - 1)] };
}
