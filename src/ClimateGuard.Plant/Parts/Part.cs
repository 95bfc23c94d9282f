namespace ClimateGuard.Plant;

/// <summary>A part number: what it is made of, how fast it follows its surroundings, and the features that must hold.</summary>
public sealed record Part
{
    /// <summary>The part number.</summary>
    public required string Number { get; init; }

    /// <summary>The name people use.</summary>
    public string Name { get; init; } = "";

    /// <summary>The material.</summary>
    public required Material Material { get; init; }

    /// <summary>Mass, in kg, or null when not stated.</summary>
    public double? MassKilograms { get; init; }

    /// <summary>Volume to cooled surface, in mm; sets how fast the part follows its surroundings.</summary>
    public required double VolumeToAreaMillimetres { get; init; }

    /// <summary>The shape, for conduction inside the part.</summary>
    public PartShape Shape { get; init; } = PartShape.Slab;

    /// <summary>Half the thickness (slab, disc) or the radius (cylinder), in mm.</summary>
    public required double HalfThicknessMillimetres { get; init; }

    /// <summary>What an unknown state means for it.</summary>
    public PartClass Class { get; init; } = PartClass.Standard;

    /// <summary>The machines it may run on; empty means any.</summary>
    public IReadOnlyList<string> Machines { get; init; } = [];

    /// <summary>The features that must hold, one or more.</summary>
    public required IReadOnlyList<Feature> Features { get; init; }

    /// <summary>Heat transfer to each surrounding.</summary>
    public HeatTransfer HeatTransfer { get; init; } = new();
}

/// <summary>The shape of a part for conduction inside it.</summary>
public enum PartShape
{
    /// <summary>A plate cooled on both faces.</summary>
    Slab,

    /// <summary>A long round bar or a sleeve.</summary>
    Cylinder,

    /// <summary>A flat disc, cooled on both faces.</summary>
    Disc,
}

/// <summary>What an unknown state means for a part.</summary>
public enum PartClass
{
    /// <summary>Unknown means go, with a note.</summary>
    Standard,

    /// <summary>Unknown means measure first.</summary>
    Reworkable,

    /// <summary>Unknown means hold and ask.</summary>
    Critical,
}

/// <summary>Heat transfer coefficients from a part to its surroundings, in W/(m² K); common practice, no source.</summary>
public sealed record HeatTransfer
{
    /// <summary>Enclosure air with mixing, radiation included.</summary>
    public double Air { get; init; } = 10;

    /// <summary>A fan blowing room air over the part.</summary>
    public double Fan { get; init; } = 25;

    /// <summary>Mist.</summary>
    public double Mist { get; init; } = 40;

    /// <summary>Flood coolant over the surfaces.</summary>
    public double Flood { get; init; } = 400;

    /// <summary>Submerged in gently moving dielectric.</summary>
    public double Submerged { get; init; } = 300;

    /// <summary>
    /// Contact to pallet or fixture, over the same surface as the others, zero for none. Bare flat contact is 100 to 500 W/(m² K) where it
    /// touches: multiply by the share of the surface that does.
    /// </summary>
    public double Pallet { get; init; }
}
