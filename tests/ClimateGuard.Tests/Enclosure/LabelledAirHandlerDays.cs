using System.Globalization;
using ClimateGuard.Enclosure;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Enclosure;

/// <summary>Open data with its labels: Granderson et al., Scientific Data 7 (2020) 65; one set of limits for both units.</summary>
public sealed class LabelledAirHandlerDays
{
    private static readonly string[] Units = ["SZCAV", "MZVAV-2-2"];

    [Fact]
    public void At_most_one_fault_free_day_is_flagged_and_seven_in_ten_faulty_ones_with_the_right_part()
    {
        Assert.SkipUnless(OpenAirHandlerDays.Available, OpenAirHandlerDays.Absent);
        int falsely = 0, faulty = 0, flagged = 0, right = 0;
        foreach (var unit in Units)
        {
            var report = Report(unit);
            foreach (var (date, label) in OpenAirHandlerDays.Labels(unit))
            {
                var found = Of(report, date);
                var isFlagged = found.Any(f => f.Flagged);
                if (label.Component is null && isFlagged) falsely++;
                if (label.Component is null) continue;
                faulty++;
                if (isFlagged) flagged++;
                if (isFlagged && found.Take(2).Any(f => f.Assessment.Component == label.Component)) right++;
            }
        }

        Assert.InRange(falsely, 0, 1);
        Assert.True(flagged >= 0.8 * faulty, $"{flagged} of {faulty} faulty days flagged");
        Assert.True(right >= 0.8 * flagged, $"the right part first or second on {right} of {flagged} days");
    }

    [Fact]
    public void A_small_leak_beside_a_working_coil_is_not_guessed_at()
    {
        Assert.SkipUnless(OpenAirHandlerDays.Available, OpenAirHandlerDays.Absent);
        var found = Of(Report("MZVAV-2-2"), "2007-08-29"); // the heating valve leaks while the cooling valve never closes

        Assert.DoesNotContain(found, f => f.Flagged);
        var leak = found.Single(f => f.Assessment.Cause.Id == "F04" && f.Assessment.Component == "heating coil valve");
        Assert.Contains(leak.Assessment.Missing, m => m.Contains("never closed", StringComparison.Ordinal));
    }

    [Fact]
    public void A_damper_between_equally_warm_airs_is_said_to_be_undecidable()
    {
        Assert.SkipUnless(OpenAirHandlerDays.Available, OpenAirHandlerDays.Absent);
        var damper = Of(Report("MZVAV-2-2"), "2008-08-28").Single(f => f.Assessment.Cause.Id == "F26");

        Assert.False(damper.Flagged);
        Assert.Contains(damper.Assessment.Missing, m => m.Contains("K apart", StringComparison.Ordinal));
    }

    private static DiagnosisReport Report(string unit)
    {
        var cell = OpenAirHandlerDays.CellOf(unit);
        return Diagnosis.Of(OpenAirHandlerDays.FrameOf(unit, cell), cell, new DiagnosisOptions { ByDay = true });
    }

    private static List<Finding> Of(DiagnosisReport report, string date) =>
        [.. report.Findings.Where(f => f.Day == DateOnly.ParseExact(date, "yyyy-MM-dd", CultureInfo.InvariantCulture))];
}
