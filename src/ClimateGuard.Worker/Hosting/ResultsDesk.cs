using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.Json;
using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Hosting;

/// <summary>Takes in files of inspection results, for HTTP and for the page alike: the whole file or nothing, and each file once.</summary>
internal sealed class ResultsDesk(CellLoop loop, ILedgerStore ledger, WorkerPlan plan, DeviceShelf shelf) : IDisposable
{
    // Two uploads of the same file at once must not both find that it is new.
    private readonly SemaphoreSlim oneAtATime = new(1, 1);

    public void Dispose() => oneAtATime.Dispose();

    /// <summary>Takes a file in, or says what would be taken in.</summary>
    /// <param name="body">The whole file.</param>
    /// <param name="device">The device whose saved mapping reads it, or null.</param>
    /// <param name="preview">Keep nothing.</param>
    /// <param name="cancellation">Stops before anything is kept.</param>
    public async Task<ResultsAnswer> TakeAsync(ReadOnlyMemory<byte> body, string? device, bool preview, CancellationToken cancellation)
    {
        var (mapping, problems) = device is null ? (null, []) : shelf.Read(device);
        if (device is not null && mapping is null)
        {
            return new ResultsRefused(problems.Count > 0
                ? [$"The mapping of the device cannot be read: {string.Join("; ", problems)}"]
                : [$"No mapping of this device is saved; saved are: {string.Join(", ", shelf.Names())}. PUT /api/v1/results/devices/{{device}} saves one"]);
        }

        await oneAtATime.WaitAsync(cancellation);
        try
        {
            return await KeepAsync(body, mapping, preview, cancellation);
        }
        finally
        {
            oneAtATime.Release();
        }
    }

    private async Task<ResultsAnswer> KeepAsync(ReadOnlyMemory<byte> body, DeviceMapping? mapping, bool preview, CancellationToken cancellation)
    {
        var hash = Convert.ToHexStringLower(SHA256.HashData(body.Span));
        if (await CameBeforeAsync(hash, cancellation) is { } before)
        {
            return new ResultsRefused([$"This file came in before, at {Rfc3339.Text(before)}"], CameBefore: true);
        }

        var cell = loop.Snapshot.Cell;
        var import = InspectionFile.Read(body, cell, mapping);
        if (import.Problems.Count > 0)
        {
            return new ResultsRefused(import.Problems);
        }

        var (values, unknown) = WithWork(import.Values, (await LedgerEvidence.ReadAsync(ledger, cell, cancellation)).Events);
        if (preview)
        {
            return new ResultsPreview(import, values, unknown);
        }

        // Who measured it on which machine is not guessed: a value that names no machine must follow from what was cut.
        if (values.Any(value => value.Machine.Length == 0))
        {
            return new ResultsRefused([.. unknown.Take(InspectionImport.MostProblems)]);
        }

        var (overrides, scored) = await KeptAsync(cancellation);
        OverrideScore[] scores = [.. OverrideScore.Of(overrides, values).Where(score => !scored.Contains((score.Machine, score.Serial, score.Operation)))];
        var now = plan.CellTime.GetUtcNow();
        await ledger.AppendAsync(
            [
                .. ResultJson.Lines(values, hash, now),
                .. scores.Select(score => new LedgerLine(now, LedgerKinds.Score, score.Machine, Encoding.UTF8.GetString(PermitJson.ToUtf8(score)))),
            ],
            cancellation);
        return new ResultsTaken(import, values.Count, scores.Length, scores.Count(score => score.Right), unknown);
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

    private async Task<DateTimeOffset?> CameBeforeAsync(string hash, CancellationToken cancellation)
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
    private async Task<(List<(string Machine, ActiveOverride Override)> Overrides, HashSet<(string, string, string)> Scored)> KeptAsync(CancellationToken cancellation)
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
}
