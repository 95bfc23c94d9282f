using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.Json;
using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Hosting;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;

namespace ClimateGuard.Worker.Api;

/// <summary>
/// <c>POST /results</c>: inspection results as QIF or CSV, the whole file or nothing, and each file once. Its values are lines of the ledger, for
/// scoreboard and evidence; they score the overrides they belong to, once for each override. With <c>preview=true</c> nothing is kept.
/// </summary>
internal static class ResultsApi
{
    private const int MostShown = 20;

    public static void Map(RouteGroupBuilder api) => api.MapPost("/results", TakeAsync)
        .WithMetadata(new RequestSizeLimitAttribute(InspectionFile.MostBytes))
        .WithSummary("Inspection results as QIF 3.0 or CSV, each file once; device names a saved mapping, preview=true keeps nothing and says what would be kept.");

    // Two uploads of the same file at once must not both find that it is new.
    private static readonly SemaphoreSlim OneAtATime = new(1, 1);

    private static async Task<Results<Ok<Taken>, Ok<Preview>, ProblemHttpResult>> TakeAsync(
        HttpRequest request, string? device, bool? preview, CellLoop loop, ILedgerStore ledger, WorkerPlan plan, DeviceShelf shelf, CancellationToken cancellation)
    {
        var body = await Body.ReadAsync(request, cancellation);
        var (mapping, problems) = device is null ? (null, []) : shelf.Read(device);
        if (device is not null && mapping is null)
        {
            return Problem.BadRequest(problems.Count > 0
                ? $"The mapping of the device cannot be read: {string.Join("; ", problems)}. Nothing was imported."
                : $"No mapping of this device is saved; saved are: {string.Join(", ", shelf.Names())}. PUT /api/v1/results/devices/{{device}} saves one. Nothing was imported.");
        }

        await OneAtATime.WaitAsync(cancellation);
        try
        {
            return await KeepAsync(body, mapping, preview == true, loop, ledger, plan, cancellation);
        }
        finally
        {
            OneAtATime.Release();
        }
    }

    private static async Task<Results<Ok<Taken>, Ok<Preview>, ProblemHttpResult>> KeepAsync(
        ReadOnlyMemory<byte> body, DeviceMapping? mapping, bool preview, CellLoop loop, ILedgerStore ledger, WorkerPlan plan, CancellationToken cancellation)
    {
        var hash = Convert.ToHexStringLower(SHA256.HashData(body.Span));
        if (await CameBeforeAsync(hash, ledger, cancellation) is { } before)
        {
            return Problem.Conflict($"This file came in before, at {Rfc3339.Text(before)}. Nothing was imported.");
        }

        var cell = loop.Snapshot.Cell;
        var import = InspectionFile.Read(body, cell, mapping);
        if (import.Problems.Count > 0)
        {
            return Problem.BadRequest($"{string.Join("; ", import.Problems)}. Nothing was imported.");
        }

        var (values, unknown) = WithWork(import.Values, (await LedgerEvidence.ReadAsync(ledger, cell, cancellation)).Events);
        if (preview)
        {
            return TypedResults.Ok(new Preview(import.Form, values.Count, import.NotMeasured, import.Notes, unknown, [.. values.Take(MostShown).Select(Shown)]));
        }

        // Who measured it on which machine is not guessed: a value that names no machine must follow from what was cut.
        if (values.Any(value => value.Machine.Length == 0))
        {
            return Problem.BadRequest($"{string.Join("; ", unknown.Take(InspectionImport.MostProblems))}. Nothing was imported.");
        }

        var (overrides, scored) = await KeptAsync(ledger, cancellation);
        OverrideScore[] scores = [.. OverrideScore.Of(overrides, values).Where(score => !scored.Contains((score.Machine, score.Serial, score.Operation)))];
        var now = plan.CellTime.GetUtcNow();
        await ledger.AppendAsync(
            [
                .. ResultJson.Lines(values, hash, now),
                .. scores.Select(score => new LedgerLine(now, LedgerKinds.Score, score.Machine, Encoding.UTF8.GetString(PermitJson.ToUtf8(score)))),
            ],
            cancellation);
        return TypedResults.Ok(new Taken(values.Count, scores.Length, scores.Count(score => score.Right)) { NotMeasured = import.NotMeasured, Notes = import.Notes, Unknown = unknown });
    }

    // A file that does not say machine and operation (QIF) gets them from the one piece of work that fits.
    private static (IReadOnlyList<InspectionValue> Values, IReadOnlyList<string> Unknown) WithWork(IReadOnlyList<InspectionValue> values, IReadOnlyList<CellEvent> events)
    {
        var genealogy = GenealogyRecord.Of(events);
        var unknown = new List<string>();
        var said = new HashSet<string>(StringComparer.Ordinal);
        InspectionValue[] known =
        [
            .. values.Select(value =>
            {
                var (step, why) = genealogy.StepOf(value);
                if (why is not null && said.Add(why))
                {
                    unknown.Add(why);
                }

                return step is not null && value.Machine.Length == 0 ? value with { Machine = step.Machine, Operation = step.Operation } : value;
            }),
        ];
        foreach (var device in values.Where(value => value.Compensation == DeviceCompensation.Unknown).Select(value => value.Device).Distinct(StringComparer.Ordinal))
        {
            unknown.Add($"device {(device.Length > 0 ? device : "without a name")}: what it does about temperature is not known");
        }

        return (known, unknown);
    }

    private static ShownValue Shown(InspectionValue value) => new(
        value.Serial, value.Part, value.Operation, value.Machine, value.Feature.Id, value.Hole, value.DeviationMicrometres, value.DxMicrometres, value.DyMicrometres, value.MeasuredAt,
        value.Device, CompensationWords.Word(value.Compensation), value.InTolerance, value.Line);

    private static async Task<DateTimeOffset?> CameBeforeAsync(string hash, ILedgerStore ledger, CancellationToken cancellation)
    {
        const int page = 1_000;
        IReadOnlyList<LedgerEntry> found;
        var before = long.MaxValue;
        do
        {
            found = await ledger.ReadBackAsync(LedgerKinds.ResultFile, null, before, page, cancellation);
            if (found.FirstOrDefault(entry => ResultJson.FileOf(entry.Line) == hash) is { } same)
            {
                return same.Line.Time;
            }

            before = found.Count > 0 ? found[^1].Seq : before;
        }
        while (found.Count == page);
        return null;
    }

    /// <summary>The overrides that were in force, oldest first, and the work whose override has a score already.</summary>
    private static async Task<(List<(string Machine, ActiveOverride Override)> Overrides, HashSet<(string, string, string)> Scored)> KeptAsync(
        ILedgerStore ledger, CancellationToken cancellation)
    {
        const int newest = 10_000;
        var overrides = new List<(string Machine, ActiveOverride Override)>();
        foreach (var entry in (await ledger.NewestAsync(LedgerKinds.Override, null, newest, cancellation)).Reverse())
        {
            if (PermitJson.ReadOverride(entry.Line) is { } taken)
            {
                overrides.Add(taken);
            }
        }

        var scored = new HashSet<(string, string, string)>();
        foreach (var entry in await ledger.NewestAsync(LedgerKinds.Score, null, newest, cancellation))
        {
            using var content = JsonDocument.Parse(entry.Line.Json);
            if (content.RootElement.TryGetProperty("override", out _))
            {
                scored.Add((Text(content, "machine"), Text(content, "serial"), Text(content, "operation")));
            }
        }

        return (overrides, scored);
    }

    private static string Text(JsonDocument content, string name) => content.RootElement.GetProperty(name).GetString() ?? "";

    /// <summary>What was taken in.</summary>
    internal sealed record Taken(int Values, int OverridesScored, int OverridesRight)
    {
        public int NotMeasured { get; init; }

        public IReadOnlyList<string> Notes { get; init; } = [];

        public IReadOnlyList<string> Unknown { get; init; } = [];
    }

    /// <summary>What would be taken in; nothing was kept.</summary>
    internal sealed record Preview(string Form, int Values, int NotMeasured, IReadOnlyList<string> Notes, IReadOnlyList<string> Unknown, IReadOnlyList<ShownValue> First);

    /// <summary>One value as it was understood.</summary>
    internal sealed record ShownValue(
        string Serial, string Part, string Operation, string Machine, string Feature, int? Hole, double DeviationUm, double? DxUm, double? DyUm, DateTimeOffset? MeasuredAt, string Device,
        string Compensation, bool InTolerance, int Line);
}
