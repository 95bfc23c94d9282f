using System.CommandLine;
using System.Text;
using ClimateGuard.Edges.Json;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Hosting;

namespace ClimateGuard.Worker.Commands;

/// <summary><c>climateguard score</c>: how right the holds were, from ledger and history, also while a worker runs.</summary>
internal static class ScoreCommand
{
    private static readonly Option<string?> From = new("--from") { Description = "Begin, inclusive, such as 2026-01-10T08:00:00Z (default: 30 days before the end).", HelpName = "TIME" };

    private static readonly Option<string?> To = new("--to") { Description = "End, exclusive (default: the newest line of the ledger).", HelpName = "TIME" };

    public static Command Create()
    {
        var command = new Command("score", "Says how right the holds were: confirmed, refuted or undecided by measurements, misses found by inspection, minutes and "
            + "money lost, beside plain air limits and no tool. Reads ledger and history, and writes nothing.\n\n"
            + "Example: climateguard score --plant config/plant.yaml --from 2026-01-01T00:00:00Z")
        {
            CommandLine.Plant, CommandLine.SettingsFile, From, To,
        };
        command.SetAction((parsed, cancellation) => RunAsync(parsed, cancellation));
        return command;
    }

    private static async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        if (PlantAndSettings.Read(parsed.GetValue(CommandLine.Plant), parsed.GetValue(CommandLine.SettingsFile)) is not { } given)
        {
            return CommandLine.BadInput;
        }

        if (!TryTime(parsed.GetValue(From), out var from) || !TryTime(parsed.GetValue(To), out var to) || from >= to)
        {
            return CommandLine.Refuse("score", "--from and --to: two times with their offset are allowed, from before to, such as 2026-01-10T08:00:00Z.");
        }

        try
        {
            var history = Read(given);
            var end = to ?? history.Span?.Last.AddMilliseconds(1) ?? DateTimeOffset.UnixEpoch.AddDays(1);
            var begin = from ?? end - ScoreBook.UsualSpan;
            if (begin >= end)
            {
                return CommandLine.Refuse("score", $"--from {Rfc3339.Text(begin)}: the ledger ends at {Rfc3339.Text(end)}.");
            }

            var report = ScoreReport.Of(history, given.Cell, begin, end);
            var air = await AirAsync(given, history, report, cancellation);
            Console.Out.WriteLine(parsed.GetValue(CommandLine.Json) ? Encoding.UTF8.GetString(ScoreJson.ToUtf8(report, air)) : ScoreText.Of(report, air));
            return CommandLine.Done;
        }
        catch (StoreUnavailableException unavailable)
        {
            return CommandLine.Refuse("score", unavailable.Message);
        }
    }

    private static HoldHistory Read(PlantAndSettings given)
    {
        using var view = SqliteLedgerView.Open(new SqliteStorage { Folder = given.Settings.StoragePath });
        if (view.CellId != given.Cell.Id)
        {
            throw new StoreUnavailableException($"{view.Path} is the ledger of cell {view.CellId}; the plant file describes {given.Cell.Id}. Name the plant file of that cell.");
        }

        var history = new HoldHistory();
        foreach (var fact in view.AsOfNow().Select(entry => ScoreLines.Of(entry.Line, given.Cell)).OfType<ScoreFact>())
        {
            history.Take(fact);
        }

        return history;
    }

    private static async Task<IReadOnlyList<AirLimitScore>?> AirAsync(
        PlantAndSettings given, HoldHistory history, ScoreReport report, CancellationToken cancellation)
    {
        try
        {
            await using var store = ReadingStoreAtHand.OpenToRead(given.Settings, given.Cell);
            var from = history.Span?.First is { } first && first > report.From ? first : report.From;
            var played = await AirHistory.PlayAsync(store.Readings, given.Cell, from, report.To, ScoreBook.AirLimits, cancellation);
            return played.Scores(report.Holds);
        }
        catch (StoreUnavailableException unavailable)
        {
            Console.Error.WriteLine($"climateguard score: without the air limits: {unavailable.Message}");
            return null;
        }
    }

    private static bool TryTime(string? text, out DateTimeOffset? time)
    {
        var stated = Rfc3339.TryParse(Encoding.UTF8.GetBytes(text ?? ""), out var read);
        time = stated ? read : null;
        return text is null || stated;
    }
}
