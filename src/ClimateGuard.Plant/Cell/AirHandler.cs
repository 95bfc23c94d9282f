namespace ClimateGuard.Plant;

/// <summary>A unit that conditions the air of the enclosure.</summary>
public sealed record AirHandler
{
    /// <summary>The id.</summary>
    public required string Id { get; init; }

    /// <summary>What carries the cold.</summary>
    public CoolingMedium Medium { get; init; } = CoolingMedium.ChilledWater;

    /// <summary>Whether it takes outdoor air; dampers, mixed air and the economiser rules then apply.</summary>
    public bool OutdoorAir { get; init; }

    /// <summary>Role of a point to the id of its sensor; what is absent limits what can be said.</summary>
    public IReadOnlyDictionary<string, string> Points { get; init; } = new Dictionary<string, string>();
}

/// <summary>What carries the cold to an air handler.</summary>
public enum CoolingMedium
{
    /// <summary>A chilled-water coil.</summary>
    ChilledWater,

    /// <summary>A direct-expansion coil.</summary>
    DirectExpansion,
}
