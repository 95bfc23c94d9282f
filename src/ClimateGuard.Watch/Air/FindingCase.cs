using ClimateGuard.Enclosure;

namespace ClimateGuard.Watch;

/// <summary>How a finding stands.</summary>
public enum FindingState
{
    /// <summary>A day shows it, but the cause needs several days to be sure of.</summary>
    Hint,

    /// <summary>Its signs have lasted long enough; a person should look.</summary>
    Open,

    /// <summary>Its signs are gone, or a person closed it.</summary>
    Closed,
}

/// <summary>What tells one finding from another: the cause and what it is about.</summary>
/// <param name="Cause">F01 to F34.</param>
/// <param name="Component">The part at fault.</param>
/// <param name="AirHandler">The air handler, or null.</param>
/// <param name="Zone">The zone, or null.</param>
/// <param name="Machine">The machine, or null.</param>
/// <param name="Sensor">The sensor, or null.</param>
public sealed record FindingPlace(string Cause, string Component, string? AirHandler, string? Zone, string? Machine, string? Sensor)
{
    /// <summary>The place of an assessment.</summary>
    public static FindingPlace Of(Assessment assessment)
    {
        ArgumentNullException.ThrowIfNull(assessment);
        return new(assessment.Cause.Id, assessment.Component, assessment.AirHandler, assessment.Zone, assessment.Machine, assessment.Sensor);
    }

    /// <summary>Where it is, in a word for a screen: the machine, the air handler or the zone.</summary>
    public string Where => Machine ?? AirHandler ?? (Zone is null ? "the cell" : $"zone {Zone}");
}

/// <summary>One finding as a person is told of it: which cause, how sure, why, what to check first. Immutable.</summary>
public sealed record FindingCase
{
    /// <summary>Its id: cause, place and the minute in which it was told, such as <c>F07-ahu1-202603041400</c>.</summary>
    public required string Id { get; init; }

    /// <summary>What it is about.</summary>
    public required FindingPlace Place { get; init; }

    /// <summary>The cause in words, such as "filter loaded".</summary>
    public required string Words { get; init; }

    /// <summary>How it stands.</summary>
    public required FindingState State { get; init; }

    /// <summary>When it was told first.</summary>
    public required DateTimeOffset OpenedAt { get; init; }

    /// <summary>How likely the cause is, from 0 to 1, with the answers given.</summary>
    public required double Probability { get; init; }

    /// <summary>When its signs began, or null.</summary>
    public DateTimeOffset? Onset { get; init; }

    /// <summary>For and against; the sign of the log-likelihood ratio tells which.</summary>
    public IReadOnlyList<Enclosure.Evidence> Evidence { get; init; } = [];

    /// <summary>What would have to be known to say more.</summary>
    public IReadOnlyList<string> Missing { get; init; } = [];

    /// <summary>What moved first, in order of time.</summary>
    public IReadOnlyList<SignalOnset> MovedFirst { get; init; } = [];

    /// <summary>What was found at checks, oldest first.</summary>
    public IReadOnlyList<GivenAnswer> Answers { get; init; } = [];

    /// <summary>When it was closed, or null.</summary>
    public DateTimeOffset? ClosedAt { get; init; }

    /// <summary>Why it was closed, in words, or null.</summary>
    public string? ClosedBecause { get; init; }

    /// <summary>The cause that a person verified when it was closed, F01 to F34, or null.</summary>
    public string? Verified { get; init; }

    /// <summary>What fixed it, in the words of the person who closed it, or null.</summary>
    public string? FixedBy { get; init; }

    /// <summary>Who closed it, or null when its signs went by themselves.</summary>
    public string? By { get; init; }

    /// <summary>What it puts at risk; null when it is closed.</summary>
    public FindingImpact? Impact { get; init; }
}

/// <summary>What a technician found at a check.</summary>
/// <param name="Time">When.</param>
/// <param name="Cause">The cause whose check it was, F01 to F34.</param>
/// <param name="Seen">Whether what is expected of that cause was seen.</param>
/// <param name="By">Who.</param>
public sealed record GivenAnswer(DateTimeOffset Time, string Cause, bool Seen, string By);
