using System.CommandLine;
using System.Text.Json;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Settings;

namespace ClimateGuard.Worker.Commands;

/// <summary><c>climateguard ledger verify</c> and <c>climateguard ledger export</c>: whether the record was bent, and the record to take along.</summary>
internal static class LedgerCommand
{
    private static readonly Option<string?> Head = new("--head")
    {
        Description = "Number and hash of a line that were noted earlier, as verify prints them; then a cut or rewritten end is found too.",
        HelpName = "SEQ:HASH",
    };

    private static readonly Option<string?> ExportedFile = new("--file")
    {
        Description = "Verifies a file that export wrote, instead of the store.", HelpName = "FILE",
    };

    private static readonly Option<string> Out = new("--out") { Description = "The file to write.", HelpName = "FILE", Required = true };

    public static Command Create()
    {
        var verify = new Command("verify", "Follows the chain of the ledger from its first line; exit 0 when whole, 1 when broken. Also while a worker runs.\n\n"
            + "Example: climateguard ledger verify --settings config/climateguard.json") { CommandLine.SettingsFile, ExportedFile, Head };
        verify.SetAction(parsed => Guarded(() => Verify(
            parsed.GetValue(CommandLine.SettingsFile), parsed.GetValue(ExportedFile), parsed.GetValue(Head), parsed.GetValue(CommandLine.Json))));
        var export = new Command("export", "Writes the whole ledger with its chain as JSON lines; the file is whole or not there.\n\n"
            + "Example: climateguard ledger export --out ledger.jsonl") { CommandLine.SettingsFile, Out };
        export.SetAction(parsed => Guarded(() => Export(
            parsed.GetValue(CommandLine.SettingsFile), parsed.GetRequiredValue(Out), parsed.GetValue(CommandLine.Json))));
        return new Command("ledger", "The record of what was decided: append-only and chained.") { verify, export };
    }

    private static int Guarded(Func<int> work)
    {
        try
        {
            return work();
        }
        catch (StoreUnavailableException unavailable)
        {
            return CommandLine.Refuse("ledger", unavailable.Message);
        }
    }

    private static int Verify(string? settingsFile, string? file, string? head, bool json)
    {
        var known = LedgerHead.Parse(head);
        if (head is not null && known is null)
        {
            return CommandLine.Refuse("ledger", $"--head {head}: a number, a colon and 64 hexadecimal digits are allowed, as verify prints them.");
        }

        if (file is not null)
        {
            var (cellId, checkedFile) = LedgerExport.Verify(file, known);
            return Say(new Findings(file, cellId, 0, checkedFile), json);
        }

        using var view = View(settingsFile);
        return Say(new Findings(view.Path, view.CellId, view.OlderLines, LedgerChain.Verify(view.CellId, view.AsOfNow(), known)), json);
    }

    private static int Export(string? settingsFile, string file, bool json)
    {
        using var view = View(settingsFile);
        return Say(new Findings(file, view.CellId, view.OlderLines, LedgerExport.Write(file, view.CellId, view.AsOfNow())), json);
    }

    private static SqliteLedgerView View(string? settingsFile) =>
        SqliteLedgerView.Open(new SqliteStorage { Folder = WorkerSettings.Read(settingsFile).StoragePath });

    private static int Say(Findings found, bool json)
    {
        var verdict = found.Verdict;
        if (json)
        {
            Console.Out.WriteLine(JsonSerializer.Serialize(
                new
                {
                    ok = verdict.Break is null,
                    file = found.File,
                    cell = found.CellId,
                    lines = verdict.Lines,
                    olderThanChain = found.OlderLines,
                    from = verdict.From,
                    to = verdict.To,
                    head = verdict.Head?.ToString(),
                    broken = verdict.Break is { } at
                        ? new { seq = at.Seq, time = at.Time, fault = FaultWord(at.Fault), because = at.Because }
                        : null,
                },
                JsonSerializerOptions.Web));
        }
        else
        {
            Console.Out.WriteLine(found.Sentence());
        }

        return verdict.Break is null ? CommandLine.Done : CommandLine.Failed;
    }

    private static string FaultWord(LedgerFault fault) => fault switch
    {
        LedgerFault.Changed => "changed",
        LedgerFault.Missing => "missing",
        LedgerFault.Reordered => "reordered",
        _ => "forged tail",
    };

    private sealed record Findings(string File, string CellId, long OlderLines, LedgerVerdict Verdict)
    {
        public string Sentence()
        {
            if (Verdict.Break is { } broken)
            {
                return $"{File}: the ledger of cell {CellId} is BROKEN at {broken}. {Verdict.Lines} lines were read; those before are sound. "
                    + "Keep the file as it is, and compare it with the last export or backup.";
            }

            var span = Verdict is { From: { } from, To: { } to } ? $", from {from.UtcDateTime:u} to {to.UtcDateTime:u}" : "";
            var older = OlderLines > 0 ? $" The first {OlderLines} are older than the chain and protected only since they were chained." : "";
            var head = Verdict.Head is { } newest ? $" Note its head, so that a cut or rewritten end can be found later: {newest}" : "";
            return $"{File}: the ledger of cell {CellId} is whole: {Verdict.Lines} lines{span}.{older}{head}";
        }
    }
}
