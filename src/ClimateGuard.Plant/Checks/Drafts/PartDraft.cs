namespace ClimateGuard.Plant;

/// <summary>A part as written; null means left out.</summary>
public sealed record PartDraft
{
    /// <summary>The part number.</summary>
    public string? Number { get; init; }

    /// <summary>The name people use.</summary>
    public string? Name { get; init; }

    /// <summary>Id of its material.</summary>
    public string? Material { get; init; }

    /// <summary>Mass, in kg.</summary>
    public double? MassKg { get; init; }

    /// <summary>Volume to cooled surface, in mm.</summary>
    public double? VolumeToAreaMm { get; init; }

    /// <summary>The shape.</summary>
    public PartShape? Shape { get; init; }

    /// <summary>Half the thickness, or the radius, in mm.</summary>
    public double? HalfThicknessMm { get; init; }

    /// <summary>What an unknown state means for it.</summary>
    public PartClass? Class { get; init; }

    /// <summary>Ids of the machines it may run on.</summary>
    public IReadOnlyList<string?>? Machines { get; init; }

    /// <summary>Heat transfer, in W/(m² K).</summary>
    public HeatTransferDraft? HeatTransfer { get; init; }

    /// <summary>The features.</summary>
    public IReadOnlyList<FeatureDraft?>? Features { get; init; }
}

/// <summary>Heat transfer of a part as written, each in W/(m² K); null means left out.</summary>
public sealed record HeatTransferDraft
{
    /// <summary>To the enclosure air.</summary>
    public double? Air { get; init; }

    /// <summary>Under a fan.</summary>
    public double? Fan { get; init; }

    /// <summary>Under mist.</summary>
    public double? Mist { get; init; }

    /// <summary>Under flood coolant.</summary>
    public double? Flood { get; init; }

    /// <summary>Submerged.</summary>
    public double? Submerged { get; init; }

    /// <summary>To the pallet.</summary>
    public double? Pallet { get; init; }
}

/// <summary>A material as written; null means left out.</summary>
public sealed record MaterialDraft
{
    /// <summary>The id.</summary>
    public string? Id { get; init; }

    /// <summary>The name people use.</summary>
    public string? Name { get; init; }

    /// <summary>Expansion coefficient, in µm/(m K).</summary>
    public double? Alpha { get; init; }

    /// <summary>Its standard uncertainty, in µm/(m K).</summary>
    public double? UAlpha { get; init; }

    /// <summary>Conductivity, in W/(m K).</summary>
    public double? Conductivity { get; init; }

    /// <summary>Density, in kg/m³.</summary>
    public double? Density { get; init; }

    /// <summary>Specific heat, in J/(kg K).</summary>
    public double? SpecificHeat { get; init; }

    /// <summary>Where the numbers come from.</summary>
    public string? Source { get; init; }

    /// <summary>Default, measured or fitted.</summary>
    public Provenance? Provenance { get; init; }
}
