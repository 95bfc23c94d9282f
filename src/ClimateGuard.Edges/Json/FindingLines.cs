using System.Text.Json;
using ClimateGuard.Enclosure;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Json;

/// <summary>Reads findings and excursions from their lines of the ledger.</summary>
public static class FindingLines
{
    /// <summary>The finding of a line, without its impact, which is of its moment; null when the line is none.</summary>
    public static FindingCase? Finding(LedgerLine line) => Read(line, LedgerKinds.Finding, static root => new FindingCase
    {
        Id = Text(root, "id")!,
        Place = new FindingPlace(
            Text(root, "finding")!, Text(root, "component")!, Text(root, "airHandler"), Text(root, "zone"), Text(root, "machine"), Text(root, "sensor")),
        Words = Text(root, "cause")!,
        State = Text(root, "state") switch { "hint" => FindingState.Hint, "open" => FindingState.Open, _ => FindingState.Closed },
        OpenedAt = root.GetProperty("openedAt").GetDateTimeOffset(),
        Probability = root.GetProperty("probability").GetDouble(),
        Onset = Time(root, "onset"),
        Evidence = [.. List(root, "evidence").Select(one => new Enclosure.Evidence(
            Text(one, "text")!, one.GetProperty("logLikelihoodRatio").GetDouble(), Text(one, "symptom") ?? ""))],
        Missing = [.. List(root, "missing").Select(one => one.GetString()!)],
        MovedFirst = [.. List(root, "movedFirst").Select(one => new SignalOnset(Text(one, "signal")!, one.GetProperty("at").GetDateTimeOffset()))],
        Answers = [.. List(root, "answers").Select(one => new GivenAnswer(
            one.GetProperty("time").GetDateTimeOffset(), Text(one, "finding")!, one.GetProperty("seen").GetBoolean(), Text(one, "by")!))],
        ClosedAt = Time(root, "closedAt"),
        ClosedBecause = Text(root, "closedBecause"),
        Verified = Text(root, "verified"),
        FixedBy = Text(root, "fixedBy"),
        By = Text(root, "by"),
    });

    /// <summary>The excursion of a line; null when the line is none.</summary>
    public static ZoneExcursion? Excursion(LedgerLine line) => Read(line, LedgerKinds.Excursion, static root => new ZoneExcursion(
        Text(root, "zone")!,
        root.GetProperty("begin").GetDateTimeOffset(),
        Time(root, "end"),
        root.GetProperty("peakK").GetDouble(),
        root.GetProperty("degreeMinutes").GetDouble(),
        [.. List(root, "jobs").Select(job => new TouchedJob(Text(job, "machine")!, Text(job, "serial")!, Text(job, "part")!, Text(job, "operation") ?? ""))]));

    private static T? Read<T>(LedgerLine line, string kind, Func<JsonElement, T> read)
        where T : class
    {
        ArgumentNullException.ThrowIfNull(line);
        if (line.Kind != kind) return null;
        try
        {
            using var document = JsonDocument.Parse(line.Json);
            return read(document.RootElement);
        }
        catch (Exception wrong) when (wrong is JsonException or InvalidOperationException or KeyNotFoundException or FormatException)
        {
            // A line that something else wrote; the check of the chain tells of it.
            return null;
        }
    }

    private static IEnumerable<JsonElement> List(JsonElement root, string name) =>
        root.TryGetProperty(name, out var list) && list.ValueKind == JsonValueKind.Array ? list.EnumerateArray() : [];

    private static string? Text(JsonElement root, string name) =>
        root.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.String ? value.GetString() : null;

    private static DateTimeOffset? Time(JsonElement root, string name) =>
        root.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.String ? value.GetDateTimeOffset() : null;
}
