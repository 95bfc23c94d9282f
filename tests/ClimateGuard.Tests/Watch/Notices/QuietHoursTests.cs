using System.Globalization;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;
using static ClimateGuard.Watch.NoticeKind;

namespace ClimateGuard.Tests.Watch.Notices;

/// <summary>The quiet hours of a cell in Vienna, 22:00 to 06:00, also on the nights when the clocks change (2026-03-29 and 2026-10-25).</summary>
public sealed class QuietHoursTests
{
    private static readonly LocalPeriod Night = new(new TimeOnly(22, 0), new TimeOnly(6, 0), []);
    private static readonly TimeZoneInfo Vienna = TimeZoneInfo.FindSystemTimeZoneById("Europe/Vienna");

    private static NoticeScript From(string utc) => new(NoticeScript.Rules with { QuietHours = Night }, Utc(utc));

    private static DateTimeOffset Utc(string text) => DateTimeOffset.Parse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal);

    [Theory]
    [InlineData("2026-03-02T20:59:59", null, null)]
    [InlineData("2026-03-02T21:00:00", "2026-03-02T21:00:00", "2026-03-03T05:00:00")]
    [InlineData("2026-03-03T04:59:59", "2026-03-02T21:00:00", "2026-03-03T05:00:00")]
    [InlineData("2026-03-03T05:00:00", null, null)]
    [InlineData("2026-03-28T23:30:00", "2026-03-28T21:00:00", "2026-03-29T04:00:00")] // 7 h: the clocks skip 02:00 to 03:00
    [InlineData("2026-10-25T00:30:00", "2026-10-24T20:00:00", "2026-10-25T05:00:00")] // 9 h: 02:00 to 03:00 comes twice
    public void A_night_has_one_begin_and_one_end_whatever_the_clocks_do(string now, string? begin, string? end)
    {
        var found = Night.At(Utc(now), Vienna);
        Assert.Equal(begin is null ? null : (Utc(begin), Utc(end!)), found);
    }

    [Theory]
    [InlineData("2026-10-25T00:15:00")] // 02:15, first time
    [InlineData("2026-10-25T00:45:00")] // 02:45, first time: an end at 02:30 must not end and begin again
    [InlineData("2026-10-25T01:15:00")] // 02:15, second time
    public void An_end_in_the_hour_that_comes_twice_is_its_second_time(string now)
    {
        var found = new LocalPeriod(new TimeOnly(22, 0), new TimeOnly(2, 30), []).At(Utc(now), Vienna);
        Assert.Equal((Utc("2026-10-24T20:00:00"), Utc("2026-10-25T01:30:00")), found);
    }

    [Theory]
    [InlineData("2026-03-29T00:59:59", true)]
    [InlineData("2026-03-29T01:00:00", false)] // 02:30 is skipped: the end lies at the skip
    public void An_end_in_the_hour_that_is_skipped_lies_at_the_skip(string now, bool quiet) =>
        Assert.Equal(quiet, new LocalPeriod(new TimeOnly(22, 0), new TimeOnly(2, 30), []).At(Utc(now), Vienna) is not null);

    [Theory]
    [InlineData("2026-03-28T20:30:00", 5.25, "2026-03-29T04:00:00")] // spring: 06:00 is 04:00 UTC
    [InlineData("2026-10-24T19:30:00", 7.25, "2026-10-25T05:00:00")] // autumn: 06:00 is 05:00 UTC
    public void What_came_at_night_comes_as_one_digest_in_the_morning(string evening, double hours, string morning)
    {
        var script = From(evening).AfterMinutes(60)
            .Raise("m1", "Reason a.").AfterMinutes(30).Clear("m1").AfterMinutes(30)
            .Raise("m2", "Reason b.").Raise("m3", "Reason c.").After(TimeSpan.FromHours(hours));
        Assert.Empty(script.Said);

        script.After(Utc(morning).AddMinutes(1) - script.Now);
        Assert.Equal([Digest], script.Kinds);
        Assert.Equal(Utc(morning), script.Said[0].Time);
        Assert.Equal(["m2/SN1/30/hold", "m3/SN1/30/hold"], script.Said[0].Opens);
        Assert.Contains(script.Said[0].Lines, line => line.Contains("over: hold on m1", StringComparison.Ordinal));

        script.AfterMinutes(10).Clear("m2").AfterMinutes(2);
        Assert.Equal([Digest, Closed], script.Kinds);
        Assert.Equal(script.Said[0].Key, script.Said[1].GoesOnFrom);
    }

    [Fact]
    public void A_part_that_must_not_be_lost_is_told_at_night_too()
    {
        var script = From("2026-03-02T23:00:00").Raise("m1", "Reason a.", AlertPriority.High).Raise("m2", "Reason b.").AfterMinutes(5);
        Assert.Equal([Opened], script.Kinds);
        Assert.Equal(["m1"], script.Said[0].Machines);
    }

    [Fact]
    public void One_that_was_told_in_the_evening_and_ended_at_night_is_over_in_the_digest()
    {
        var script = From("2026-03-02T20:30:00").Raise("m1").AfterMinutes(120).Clear("m1").AfterMinutes(5);
        Assert.Equal([Opened], script.Kinds);

        script.After(TimeSpan.FromHours(8));
        Assert.Equal([Opened, Digest], script.Kinds);
        Assert.Equal(["m1/SN1/30/hold"], script.Said[1].Closes);
    }

    [Fact]
    public void One_that_ended_unnoticed_and_comes_back_as_urgent_is_told_as_over_and_as_standing()
    {
        var script = From("2026-03-02T20:30:00").Raise("m1").AfterMinutes(60).Clear("m1").AfterMinutes(5)
            .Raise("m1", "Another reason.", AlertPriority.High).AfterMinutes(5);
        Assert.Equal([Opened, Opened], script.Kinds);
        Assert.Equal(script.Said[1].Opens, script.Said[1].Closes);

        Assert.Empty(script.After(TimeSpan.FromHours(8)).Said.Skip(2).SelectMany(notice => notice.Closes));
    }

    [Fact]
    public void A_single_notice_held_back_comes_as_itself()
    {
        var script = From("2026-03-03T04:00:00").Raise("m1").AfterMinutes(61);
        Assert.Equal([Opened], script.Kinds);
        Assert.Equal(Utc("2026-03-03T05:00:00"), script.Said[0].Time);
    }

    [Fact]
    public void A_quiet_night_without_news_has_no_digest() => Assert.Empty(From("2026-03-02T20:00:00").After(TimeSpan.FromHours(12)).Said);
}
