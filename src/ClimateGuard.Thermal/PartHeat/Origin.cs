using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>Where a part was before it came onto a machine: how warm it is then, nobody having measured it, and how well that is known.</summary>
/// <remarks>Equality by members. Immutable.</remarks>
/// <param name="Kind">The kind of place.</param>
/// <param name="Machine">Id of the machine it comes from, else null.</param>
public sealed record Origin(OriginKind Kind, string? Machine = null)
{
    /// <summary>Reads the word of a job: hall, storage, wash, else the id of a machine; nothing is unknown.</summary>
    /// <param name="word">The word, or null.</param>
    public static Origin Of(string? word) => word switch
    {
        null or "" => new(OriginKind.Unknown),
        "hall" => new(OriginKind.Hall),
        "storage" => new(OriginKind.Storage),
        "wash" => new(OriginKind.Wash),
        _ => new(OriginKind.Machine, word),
    };

    /// <summary>Standard uncertainty of its temperature beside that of the place: machine ±1 K, storage ±2 K, hall ±4 K, wash ±5 K, unknown ±4 K.</summary>
    /// <param name="noise">The numbers.</param>
    public Kelvins Uncertainty(ThermalNoise noise)
    {
        ArgumentNullException.ThrowIfNull(noise);
        return new(Kind switch
        {
            OriginKind.Machine => noise.MachineOriginKelvins,
            OriginKind.Storage => noise.OriginKelvins,
            OriginKind.Wash => noise.WashOriginKelvins,
            _ => noise.UnknownOriginKelvins,
        });
    }
}

/// <summary>A kind of place a part may come from.</summary>
public enum OriginKind
{
    /// <summary>Nobody said.</summary>
    Unknown,

    /// <summary>The hall around the enclosure.</summary>
    Hall,

    /// <summary>The store where blanks or pallets wait; its sensor says how warm it is.</summary>
    Storage,

    /// <summary>A wash station.</summary>
    Wash,

    /// <summary>Another machine, whose coolant it had over it.</summary>
    Machine,
}
