using ClimateGuard.Enclosure;
using ClimateGuard.Plant;

namespace ClimateGuard.Tests.Support;

/// <summary>Invented courses of a zone, minute by minute from a Monday 00:00 UTC.</summary>
internal static class CourseOf
{
    public static readonly DateTimeOffset Monday = new(2026, 6, 1, 0, 0, 0, TimeSpan.Zero);

    public static Zone Zone { get; } = new() { Id = "N" };

    public static ZoneForecaster Forecaster() => new(Zone, Calendar());

    public static WorkCalendar Calendar() => new([], TimeZoneInfo.Utc);

    /// <summary>A minute in which only the air, and the set point where one is given, is known.</summary>
    public static ZoneMoment Minute(int minute, double air, double setpoint = 20, Regime regime = Regime.InControl) => new(
        Monday.AddMinutes(minute).ToUnixTimeMilliseconds(), air, setpoint, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN, 0, regime);

    /// <summary>Values that last so long each.</summary>
    public static IEnumerable<ZoneMoment> Values(IEnumerable<double> values, int minutesEach, double setpoint = 20)
    {
        var minute = 0;
        foreach (var value in values)
        {
            for (var k = 0; k < minutesEach; k++) yield return Minute(minute++, value, setpoint);
        }
    }
}
