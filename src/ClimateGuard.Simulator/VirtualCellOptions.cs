namespace ClimateGuard.Simulator;

/// <summary>How a <see cref="VirtualCell"/> is made.</summary>
/// <param name="Seed">The seed of all chance; the same seed gives the same signals.</param>
/// <param name="Start">Event time at which it begins to speak.</param>
/// <param name="Script">What happens.</param>
public sealed record VirtualCellOptions(int Seed, DateTimeOffset Start, Script Script)
{
    /// <summary>The inner step, at most 10 s.</summary>
    public TimeSpan Step { get; init; } = TimeSpan.FromSeconds(10);

    /// <summary>How long the cell has lived in silence before it begins to speak, so that masses and structure have a past.</summary>
    public TimeSpan Past { get; init; } = TimeSpan.FromDays(2);

    /// <summary>How far the truth is from the plant file: 1 moves parameters by 10 to 20 %, 0 not at all.</summary>
    public double ChanceScale { get; init; } = 1.0;

    /// <summary>The hall and the weather.</summary>
    public HallClimate Climate { get; init; } = new();

    /// <summary>Set point of all zones during the silent past and until the script moves it, in °C; null is that of the plant file.</summary>
    public double? PastSetpointCelsius { get; init; }

    /// <summary>Whether it keeps the truth of each part minute by minute, for <see cref="VirtualCell.Truth"/>.</summary>
    public bool KeepsTruth { get; init; }
}
