using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Published;

/// <summary>
/// ANSI/ISA-18.2 and IEC 62682, table of alarm performance metrics, as quoted in training material and a benchmark note that agree; EEMUA 191
/// gives the same steady rates. The paper copies were not seen. Values exact.
/// </summary>
public sealed class Isa18_2_AlarmFigures
{
    [Fact]
    public void Alarms_per_day_are_acceptable_to_150_and_manageable_to_300() => Assert.Equal((150.0, 300.0), AlarmLimits.PerDay);

    [Fact]
    public void Alarms_per_hour_are_acceptable_to_6_and_manageable_to_12() => Assert.Equal((6.0, 12.0), AlarmLimits.PerHour);

    [Fact]
    public void Alarms_per_ten_minutes_are_acceptable_to_1_and_manageable_to_2() => Assert.Equal((1.0, 2.0), AlarmLimits.PerTenMinutes);

    [Fact]
    public void A_flood_is_more_than_10_in_ten_minutes_until_fewer_than_5() // the end: from memory
    {
        Assert.Equal(10, AlarmLimits.FloodBeginsAbove);
        Assert.Equal(5, AlarmLimits.FloodEndsBelow);
        Assert.Equal(0.01, AlarmLimits.FloodShare);
    }

    [Fact]
    public void The_ten_most_frequent_are_1_to_5_percent() => Assert.Equal((0.01, 0.05), AlarmLimits.TopTenShare);

    [Fact]
    public void Stale_is_more_than_24_h_and_fewer_than_5_a_day()
    {
        Assert.Equal(TimeSpan.FromHours(24), AlarmLimits.StaleAfter);
        Assert.Equal(5, AlarmLimits.StaleBelow);
    }

    [Fact]
    public void Priorities_are_80_15_5_percent() => Assert.Equal((0.80, 0.15, 0.05), AlarmLimits.Priorities);

    [Fact]
    public void Chattering_is_3_in_a_minute_and_the_evidence_is_30_days()
    {
        Assert.Equal(3, AlarmLimits.ChatteringFrom);
        Assert.Equal(TimeSpan.FromDays(30), AlarmLimits.LeastEvidence);
        Assert.Equal(3, new NoticeRules { Cell = "c", Zone = TimeZoneInfo.Utc }.ChatteringFrom);
        Assert.Equal(TimeSpan.FromMinutes(1), new NoticeRules { Cell = "c", Zone = TimeZoneInfo.Utc }.ChatteringWithin);
    }
}
