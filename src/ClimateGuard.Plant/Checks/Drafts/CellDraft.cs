namespace ClimateGuard.Plant;

/// <summary>What a plant file says, key for key, before anybody has checked it.</summary>
/// <remarks>
/// Each property carries the name of its key, unit included; null means the key was left out or could not be read.
/// <see cref="PlantChecks"/> finds what contradicts itself, <see cref="CellBuilder"/> fills the defaults in. Immutable.
/// </remarks>
public sealed record CellDraft
{
    /// <summary>Version of the plant file; 1.</summary>
    public double? Version { get; init; }

    /// <summary>The id of the cell.</summary>
    public string? Cell { get; init; }

    /// <summary>The name people use.</summary>
    public string? Name { get; init; }

    /// <summary>IANA time zone.</summary>
    public string? TimeZone { get; init; }

    /// <summary>Reference temperature, in °C.</summary>
    public double? ReferenceC { get; init; }

    /// <summary>The zones.</summary>
    public IReadOnlyList<ZoneDraft?>? Zones { get; init; }

    /// <summary>The sensors.</summary>
    public IReadOnlyList<SensorDraft?>? Sensors { get; init; }

    /// <summary>The air handlers.</summary>
    public IReadOnlyList<AirHandlerDraft?>? AirHandlers { get; init; }

    /// <summary>The machines.</summary>
    public IReadOnlyList<MachineDraft?>? Machines { get; init; }

    /// <summary>Additions to and changes of the material library.</summary>
    public IReadOnlyList<MaterialDraft?>? Materials { get; init; }

    /// <summary>The parts.</summary>
    public IReadOnlyList<PartDraft?>? Parts { get; init; }

    /// <summary>Decision, calendar and rates.</summary>
    public PoliciesDraft? Policies { get; init; }
}

/// <summary>A zone as written.</summary>
public sealed record ZoneDraft
{
    /// <summary>The id.</summary>
    public string? Id { get; init; }

    /// <summary>Set point, in °C.</summary>
    public double? SetpointC { get; init; }

    /// <summary>Band, plus or minus, in K.</summary>
    public double? BandK { get; init; }

    /// <summary>Ids of its air handlers.</summary>
    public IReadOnlyList<string?>? AirHandlers { get; init; }

    /// <summary>When it is kept elsewhere on purpose.</summary>
    public IReadOnlyList<SetBackDraft?>? SetBacks { get; init; }
}

/// <summary>A set-back as written.</summary>
public sealed record SetBackDraft
{
    /// <summary>Begin, local, such as Sat 14:30.</summary>
    public string? From { get; init; }

    /// <summary>End, local, such as Mon 05:00.</summary>
    public string? Until { get; init; }

    /// <summary>Set point meanwhile, in °C.</summary>
    public double? SetpointC { get; init; }
}

/// <summary>An air handler as written.</summary>
public sealed record AirHandlerDraft
{
    /// <summary>The id.</summary>
    public string? Id { get; init; }

    /// <summary>What carries the cold.</summary>
    public CoolingMedium? Medium { get; init; }

    /// <summary>Whether it takes outdoor air.</summary>
    public bool? OutdoorAir { get; init; }

    /// <summary>Role to sensor id.</summary>
    public IReadOnlyDictionary<string, string?>? Points { get; init; }
}
