namespace ClimateGuard.Plant;

/// <summary>A part of each week in which a zone is kept elsewhere on purpose, in local time.</summary>
/// <param name="From">When it begins.</param>
/// <param name="Until">When it ends, exclusive; one that lies before the begin is in the next week.</param>
/// <param name="Setpoint">The set point meanwhile.</param>
public sealed record SetBack(WeekTime From, WeekTime Until, Celsius Setpoint);

/// <summary>A moment of the week on the clock of the cell.</summary>
/// <remarks>Equality by members; ordered by <see cref="MinuteOfWeek"/>; the default is Sunday 00:00. Immutable.</remarks>
/// <param name="Day">The day.</param>
/// <param name="Time">The time of day.</param>
public readonly record struct WeekTime(DayOfWeek Day, TimeOnly Time)
{
    /// <summary>Minutes in a week.</summary>
    public const int MinutesPerWeek = 7 * 24 * 60;

    /// <summary>Minutes since Sunday 00:00, in [0, 10 080).</summary>
    public int MinuteOfWeek => ((int)Day * 24 * 60) + (Time.Hour * 60) + Time.Minute;

    /// <summary>As in the plant file, such as <c>Sat 14:30</c>.</summary>
    public override string ToString() => $"{Day.ToString()[..3]} {Time.ToString("HH:mm", System.Globalization.CultureInfo.InvariantCulture)}";
}
