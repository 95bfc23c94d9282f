namespace ClimateGuard.Enclosure;

/// <summary>The kinds of cause, with what share of the problems of a site each is taken to make up before the site has closed any.</summary>
public enum CauseClass
{
    /// <summary>Control loops, schedules, set points.</summary>
    Control,

    /// <summary>Doors, walls, sun, the hall.</summary>
    Envelope,

    /// <summary>Machines and other heat in the room.</summary>
    Load,

    /// <summary>Filter, fan and the way of the air.</summary>
    AirFlow,

    /// <summary>Chilled water, refrigerant, coils and valves.</summary>
    Cooling,

    /// <summary>Sensors.</summary>
    Sensor,

    /// <summary>Everything else.</summary>
    Other,
}

/// <summary>A limit of a rule that the plant file may change under <c>policies.findings</c>.</summary>
/// <param name="Key">Its name in the plant file, with the unit, such as leakKelvin.</param>
/// <param name="Default">The value when the plant file says nothing.</param>
/// <param name="Source">Where the default comes from.</param>
public sealed record FindingLimit(string Key, double Default, string Source);

/// <summary>What to look at first, with the tools on the belt.</summary>
/// <param name="Text">What to do.</param>
/// <param name="Tool">With what.</param>
/// <param name="Place">Where.</param>
/// <param name="Minutes">How long it takes.</param>
/// <param name="Expected">What is seen when this is the cause.</param>
public sealed record FirstCheck(string Text, string Tool, string Place, double Minutes, string Expected);

/// <summary>One cause that can be found, with everything that does not depend on the readings.</summary>
public sealed record FaultCause
{
    /// <summary>F01 to F34.</summary>
    public required string Id { get; init; }

    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Its kind.</summary>
    public required CauseClass Class { get; init; }

    /// <summary>The part that is at fault, unless the evidence names a more exact one.</summary>
    public required string Component { get; init; }

    /// <summary>Its limits.</summary>
    public required IReadOnlyList<FindingLimit> Limits { get; init; }

    /// <summary>The least data for a judgement, in words.</summary>
    public required string LeastData { get; init; }

    /// <summary>The shortest time over which its rule can judge, where that is longer than <see cref="OnAfter"/>.</summary>
    public TimeSpan LeastSpan { get; init; }

    /// <summary>How long the signs must last before it is told.</summary>
    public required TimeSpan OnAfter { get; init; }

    /// <summary>How long they must be gone before it ends.</summary>
    public required TimeSpan OffAfter { get; init; }

    /// <summary>What else can look like it.</summary>
    public required string Confounders { get; init; }

    /// <summary>What to check first.</summary>
    public required FirstCheck FirstCheck { get; init; }

    /// <summary>Where the rule comes from.</summary>
    public required string Source { get; init; }
}
