namespace ClimateGuard.Plant;

/// <summary>What a plant file says.</summary>
public sealed record CellDescription
{
    /// <summary>The id used in topics, [A-Za-z0-9_-]+.</summary>
    public required string Id { get; init; }

    /// <summary>The name people use.</summary>
    public required string Name { get; init; }

    /// <summary>The IANA time zone of screens and shifts; storage is UTC.</summary>
    public string TimeZone { get; init; } = "UTC";

    /// <summary>The temperature at which lengths are stated; ISO 1 says 20 °C.</summary>
    public Celsius Reference { get; init; } = Celsius.Reference;

    /// <summary>The zones, one or more.</summary>
    public required IReadOnlyList<Zone> Zones { get; init; }

    /// <summary>The sensors.</summary>
    public required IReadOnlyList<Sensor> Sensors { get; init; }

    /// <summary>The air handlers.</summary>
    public IReadOnlyList<AirHandler> AirHandlers { get; init; } = [];

    /// <summary>The machines.</summary>
    public IReadOnlyList<Machine> Machines { get; init; } = [];

    /// <summary>The parts that may be made here.</summary>
    public IReadOnlyList<Part> Parts { get; init; } = [];

    /// <summary>The materials known here: the library with the plant file's additions and changes.</summary>
    public IReadOnlyList<Material> Materials { get; init; } = [];

    /// <summary>What decides between go, measure and hold, and the shop's calendar and rates.</summary>
    public Policies Policies { get; init; } = new();

    /// <summary>The optional keys that the plant file left out, with the value that stands in; shown wherever the value matters.</summary>
    public IReadOnlyList<DefaultUsed> Defaults { get; init; } = [];
}

/// <summary>A documented default that stands in for a key the plant file left out.</summary>
/// <param name="Path">The place in the plant file, as a JSON pointer such as <c>/machines/0/scale/timeConstantMin</c>.</param>
/// <param name="Value">The value that stands in, as it would be written in the file.</param>
public sealed record DefaultUsed(string Path, string Value);
