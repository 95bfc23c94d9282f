using System.Globalization;
using System.Text.Json;
using ClimateGuard.Enclosure;

namespace ClimateGuard.Edges.Files;

/// <summary>The result of <c>diagnose</c> as JSON.</summary>
public static class DiagnosisJson
{
    /// <summary>Below this a candidate is left out, unless it says what is missing.</summary>
    public const double LeastProbability = 0.02;

    /// <summary>One JSON object: <c>findings</c>, <c>noneOfThese</c>, <c>notes</c>.</summary>
    /// <param name="report">The report.</param>
    public static string Text(DiagnosisReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        return JsonSerializer.Serialize(
            new
            {
                findings = Told(report).Select(One),
                noneOfThese = report.None.Select(none => new { day = Day(none.Day), airHandler = none.AirHandler, probability = none.Probability }),
                nextChecks = report.Findings.GroupBy(f => (f.Day, f.Assessment.AirHandler)).Select(group => NextOf(group.Key.Day, group.Key.AirHandler, [.. group])),
                notes = report.Notes,
            },
            JsonSerializerOptions.Web);
    }

    /// <summary>The findings worth telling: candidates, and those that cannot be decided for want of something.</summary>
    public static IEnumerable<Finding> Told(DiagnosisReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        return report.Findings.Where(f => f.Probability >= LeastProbability || (f.Assessment.Evidence.Count == 0 && f.Assessment.Missing.Count > 0));
    }

    private static object NextOf(DateOnly? day, string? airHandler, IReadOnlyList<Finding> findings)
    {
        var best = NextCheck.Of(findings)[0];
        return new { day = Day(day), airHandler, finding = best.Cause.Id, check = best.Check.Text, minutes = best.Check.Minutes, bitsPerMinute = Math.Round(best.BitsPerMinute, 4) };
    }

    private static object One(Finding finding)
    {
        var cause = finding.Assessment.Cause;
        return new
        {
            day = Day(finding.Day),
            airHandler = finding.Assessment.AirHandler,
            zone = finding.Assessment.Zone,
            machine = finding.Assessment.Machine,
            sensor = finding.Assessment.Sensor,
            finding = cause.Id,
            cause = finding.Assessment.Words,
            component = finding.Assessment.Component,
            probability = Math.Round(finding.Probability, 4),
            onset = finding.Onset is { } onset ? Time(onset) : null,
            evidence = finding.Assessment.Evidence.Where(e => e.LogLikelihoodRatio != 0).Select(e => new { text = e.Text, logLikelihoodRatio = Math.Round(e.LogLikelihoodRatio, 2) }),
            firstCheck = cause.FirstCheck.Text,
            check = new { tool = cause.FirstCheck.Tool, place = cause.FirstCheck.Place, minutes = cause.FirstCheck.Minutes, expected = cause.FirstCheck.Expected },
            missing = finding.Assessment.Missing,
            movedFirst = finding.MovedFirst.Take(5).Select(moved => new { signal = moved.Signal, at = Time(moved.At) }),
            days = finding.Days,
            source = cause.Source,
        };
    }

    private static string Time(DateTimeOffset at) => at.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);

    private static string? Day(DateOnly? day) => day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
