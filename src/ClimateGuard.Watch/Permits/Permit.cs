namespace ClimateGuard.Watch;

/// <summary>The permission to start one finish cut: once, soon, on this machine, for this serial and operation.</summary>
/// <remarks>Immutable; equality by members. A permit is an advice to a programme, never an interlock.</remarks>
public sealed record Permit
{
    /// <summary>The id, unique in the cell.</summary>
    public required string Id { get; init; }

    /// <summary>Id of the machine.</summary>
    public required string Machine { get; init; }

    /// <summary>Serial number.</summary>
    public required string Serial { get; init; }

    /// <summary>Operation.</summary>
    public required string Operation { get; init; }

    /// <summary>Feature, or null for all of the operation.</summary>
    public string? Feature { get; init; }

    /// <summary>When it was given.</summary>
    public required DateTimeOffset IssuedAt { get; init; }

    /// <summary>Until when the cut may start on it.</summary>
    public required DateTimeOffset ValidUntil { get; init; }

    /// <summary>The version of the plant file under which it was given; it keeps it when another comes into force.</summary>
    public string ConfigVersion { get; init; } = "";

    /// <summary>The coolant when it was given, in °C; NaN when there was none.</summary>
    public double CoolantCelsius { get; init; } = double.NaN;

    /// <summary>The offset with which alone it holds, or null.</summary>
    public StandingOffset? Offset { get; init; }

    /// <summary>What became of it.</summary>
    public PermitFate Fate { get; init; } = PermitFate.Valid;

    /// <summary>Why it was revoked, or null.</summary>
    public string? RevokedBecause { get; init; }

    /// <summary>Whether a cut may start on it at this moment.</summary>
    /// <param name="now">The moment.</param>
    public bool HoldsAt(DateTimeOffset now) => Fate == PermitFate.Valid && now <= ValidUntil;

    /// <summary>What became of it, as of this moment.</summary>
    /// <param name="now">The moment.</param>
    public PermitFate FateAt(DateTimeOffset now) => Fate == PermitFate.Valid && now > ValidUntil ? PermitFate.Expired : Fate;
}

/// <summary>What became of a permit.</summary>
public enum PermitFate
{
    /// <summary>A cut may start on it.</summary>
    Valid,

    /// <summary>A cut has started on it.</summary>
    Used,

    /// <summary>Its time ran out.</summary>
    Expired,

    /// <summary>Something happened after which it no longer holds.</summary>
    Revoked,

    /// <summary>A newer one took its place.</summary>
    Superseded,
}
