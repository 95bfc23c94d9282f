namespace ClimateGuard.Watch;

/// <summary>What is remembered of one cause at one place between two passes.</summary>
internal sealed class FindingTrack
{
    /// <summary>Since which pass its signs show without a break, or null.</summary>
    public DateTimeOffset? ShowsSince { get; set; }

    /// <summary>Since which pass its signs are gone while it stands, or null.</summary>
    public DateTimeOffset? GoneSince { get; set; }

    /// <summary>The finding that stands, or null.</summary>
    public FindingCase? Standing { get; set; }

    /// <summary>When a person closed the last one; until the signs go, or begin anew, it is not opened again.</summary>
    public DateTimeOffset? SettledAt { get; set; }

    /// <summary>When the last one ended; signs of before do not count for the next.</summary>
    public DateTimeOffset? EndedAt { get; set; }

    public FindingTrack Copy() => (FindingTrack)MemberwiseClone();
}
