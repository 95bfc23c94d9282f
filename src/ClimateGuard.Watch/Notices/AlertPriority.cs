namespace ClimateGuard.Watch;

/// <summary>How soon a person must act.</summary>
public enum AlertPriority
{
    /// <summary>In the course of the shift.</summary>
    Low,

    /// <summary>A machine waits for a person.</summary>
    Medium,

    /// <summary>A part that must not be lost is concerned.</summary>
    High,
}

/// <summary>An alert with its priority.</summary>
/// <param name="Raised">The alert.</param>
/// <param name="Priority">How soon a person must act.</param>
public sealed record RankedAlert(AlertRaised Raised, AlertPriority Priority);
