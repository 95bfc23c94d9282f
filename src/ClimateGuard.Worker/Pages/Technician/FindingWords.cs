using System.Globalization;
using ClimateGuard.Edges.Json;
using ClimateGuard.Enclosure;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Pages.Words;

namespace ClimateGuard.Worker.Pages.Technician;

/// <summary>Findings in words for the technician. Pure.</summary>
public static class FindingWords
{
    private const double Strong = 4;
    private const double Some = 1.5;
    private const int MostMoved = 4;

    /// <summary>The text with a capital letter, unless it begins with an id.</summary>
    public static string Capital(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var isId = text.Split(' ')[0].Any(letter => letter == '/' || char.IsAsciiDigit(letter));
        return text.Length == 0 || isId ? text : char.ToUpperInvariant(text[0]) + text[1..];
    }

    /// <summary>Where it reaches, such as <c>zone N: M1, M2</c>.</summary>
    public static string Reach(FindingCase finding, Cell cell)
    {
        ArgumentNullException.ThrowIfNull(finding);
        ArgumentNullException.ThrowIfNull(cell);
        var zones = cell.Zones.Where(z => finding.Place.Zone is { } zone ? z.Id == zone : finding.Place.AirHandler is { } unit && z.AirHandlers.Contains(unit));
        return string.Join("; ", zones.Select(z => $"zone {z.Id}: {string.Join(", ", cell.Machines.Where(m => m.Zone == z.Id).Select(m => m.Id))}"));
    }

    /// <summary>Since when it shows, such as <c>since 10:45</c>.</summary>
    public static string Since(FindingCase finding, CellTime time, DateTimeOffset now)
    {
        ArgumentNullException.ThrowIfNull(finding);
        ArgumentNullException.ThrowIfNull(time);
        return finding.Onset is { } onset ? $"since {time.Near(onset, now)}" : $"told {time.Near(finding.OpenedAt, now)}";
    }

    /// <summary>With what, where, how long, and what to expect.</summary>
    public static string CheckFacts(FirstCheck check)
    {
        ArgumentNullException.ThrowIfNull(check);
        return string.Create(CultureInfo.InvariantCulture, $"With {check.Tool}, {check.Place}, {check.Minutes:0} min. If this is it: {check.Expected}.");
    }

    /// <summary>What moved first, in order.</summary>
    public static string Moved(IReadOnlyList<SignalOnset> moved, CellTime time, DateTimeOffset now)
    {
        ArgumentNullException.ThrowIfNull(moved);
        ArgumentNullException.ThrowIfNull(time);
        return string.Join(", then ", moved.Take(MostMoved).Select(one => $"{one.Signal} ({time.Near(one.At, now)})"));
    }

    /// <summary>How much a piece of evidence says.</summary>
    public static string Strength(Enclosure.Evidence evidence)
    {
        ArgumentNullException.ThrowIfNull(evidence);
        return Math.Abs(evidence.LogLikelihoodRatio) switch { >= Strong => "strong", >= Some => "some", _ => "weak" };
    }

    /// <summary>How the air of a zone stands.</summary>
    public static string Of(ZoneSnapshot zone, CellTime time, DateTimeOffset now)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(time);
        var error = zone.ErrorKelvins is { } kelvins ? string.Create(CultureInfo.InvariantCulture, $"{Signed(kelvins)} K from its set point") : "its air is not known";
        var since = zone.Since is { } from ? $" since {time.Near(from, now)}" : "";
        var excursion = zone.Excursion is { } out_
            ? string.Create(CultureInfo.InvariantCulture, $" Outside its band since {time.Near(out_.Begin, now)}, {Signed(out_.PeakKelvins)} K at most, {out_.DegreeMinutes:0} K·min{Jobs(out_)}.")
            : "";
        return $"{Capital(AirJson.WordOf(zone.Regime))}{since}, {error}.{excursion}";
    }

    /// <summary>A closed finding in one line.</summary>
    public static string Closed(FindingCase finding, CellTime time, DateTimeOffset now)
    {
        ArgumentNullException.ThrowIfNull(finding);
        ArgumentNullException.ThrowIfNull(time);
        var when = finding.ClosedAt is { } at ? time.Near(at, now) : "";
        var who = finding.By is { } by ? $", {by}" : "";
        var fixedBy = finding.FixedBy is { } what ? $": {what}" : "";
        return $"{when} {finding.Place.Where}, {finding.Words}: {finding.ClosedBecause}{who}{fixedBy}.";
    }

    private static string Jobs(ZoneExcursion excursion) =>
        excursion.Jobs.Count == 0 ? "" : $", with {string.Join(", ", excursion.Jobs.Select(job => $"{job.Serial} on {job.Machine}"))}";

    private static string Signed(double kelvins) =>
        (Math.Abs(kelvins) < 0.05 ? "" : kelvins < 0 ? "−" : "+") + Math.Abs(kelvins).ToString("0.0", CultureInfo.InvariantCulture);
}
