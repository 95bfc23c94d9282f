namespace ClimateGuard.Plant;

/// <summary>A part of the enclosure that one or more air handlers keep at one temperature.</summary>
public sealed record Zone
{
    /// <summary>The id.</summary>
    public required string Id { get; init; }

    /// <summary>What the room is asked to hold.</summary>
    public Celsius Setpoint { get; init; } = Celsius.Reference;

    /// <summary>The band the room is asked to hold, plus or minus; shown on pages, never the criterion of a hold.</summary>
    public Kelvins Band { get; init; } = new(1.0);

    /// <summary>The ids of the air handlers that serve the zone.</summary>
    public IReadOnlyList<string> AirHandlers { get; init; } = [];

    /// <summary>When it is kept elsewhere on purpose, week by week; none overlap.</summary>
    public IReadOnlyList<SetBack> SetBacks { get; init; } = [];
}
