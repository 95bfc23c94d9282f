namespace ClimateGuard.Enclosure;

/// <summary>What one rule says about one cause in one window.</summary>
public sealed record Assessment
{
    /// <summary>The cause.</summary>
    public required FaultCause Cause { get; init; }

    /// <summary>The part at fault; the component of the cause unless the evidence names a more exact one.</summary>
    public required string Component { get; init; }

    /// <summary>The cause in words, such as "cooling coil valve leaks".</summary>
    public required string Words { get; init; }

    /// <summary>For and against; empty when nothing could be seen.</summary>
    public IReadOnlyList<Evidence> Evidence { get; init; } = [];

    /// <summary>What would have to be known to say more.</summary>
    public IReadOnlyList<string> Missing { get; init; } = [];

    /// <summary>The first minute of the window in which it showed, or null.</summary>
    public int? OnsetMinute { get; init; }

    /// <summary>The air handler it is about, or null.</summary>
    public string? AirHandler { get; init; }

    /// <summary>The zone it is about, or null.</summary>
    public string? Zone { get; init; }

    /// <summary>The machine it is about, or null.</summary>
    public string? Machine { get; init; }

    /// <summary>The sensor it is about, or null.</summary>
    public string? Sensor { get; init; }
}
