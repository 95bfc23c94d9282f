namespace ClimateGuard.Watch;

/// <summary>How a figure stands against what is published.</summary>
public enum AlarmStanding
{
    /// <summary>At most what is published as very likely acceptable.</summary>
    Acceptable,

    /// <summary>At most what is published as manageable.</summary>
    Manageable,

    /// <summary>Beyond that.</summary>
    TooMany,

    /// <summary>There is nothing published to compare with, or too little was seen.</summary>
    NotJudged,
}

/// <summary>One figure about our own alarms, beside what is published.</summary>
/// <param name="Name">What is counted, such as <c>alarmsPerHour</c>.</param>
/// <param name="Value">The figure, finite and not negative.</param>
/// <param name="Unit">Its unit: <c>alarms</c>, <c>alarms/h</c>, <c>share</c> (0 to 1), <c>causes</c>.</param>
/// <param name="Acceptable">Very likely acceptable up to here, or null.</param>
/// <param name="Manageable">Manageable up to here, or null.</param>
/// <param name="Standing">How it stands.</param>
/// <param name="Source">Where the two limits come from.</param>
public sealed record AlarmFigure(
    string Name, double Value, string Unit, double? Acceptable, double? Manageable, AlarmStanding Standing, string Source);
