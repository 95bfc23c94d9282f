using System.Text.Json;
using ClimateGuard.Edges.Json;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Plant;
using ClimateGuard.Simulator;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Demo;
using Microsoft.Extensions.Logging.Abstractions;

namespace ClimateGuard.Tests.Worker.Demo;

/// <summary>What the three weeks before the scripted one leave in the ledger, counted.</summary>
public sealed class DemoHistoryTests : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("climateguard-history-");

    public void Dispose() => folder.Delete(recursive: true);

    [Fact]
    public async Task Three_weeks_leave_180_finish_operations_and_14_holds_of_which_12_were_confirmed_by_the_next_measurement()
    {
        var lines = await LiveAsync();

        Assert.Equal(180, lines.Count(line => line.Kind == LedgerKinds.Event && Text(line, "type") == "cutFinished"));
        var held = lines.Where(line => line.Kind == LedgerKinds.Answer && Text(line, "answer") == "HOLD").Select(line => Text(line, "serial")).ToHashSet();
        Assert.Equal(14, held.Count);
        var first = lines.Where(line => line.Kind == LedgerKinds.Score).GroupBy(line => Text(line, "serial")).Select(scores => Text(scores.First(), "verdict"));
        Assert.Equal(12, first.Count(verdict => verdict == "confirmed"));
    }

    private static string? Text(LedgerLine line, string field) =>
        JsonDocument.Parse(line.Json).RootElement.TryGetProperty(field, out var value) ? value.GetString() : null;

    private async Task<List<LedgerLine>> LiveAsync()
    {
        var cell = PlantFileReader.Read(Repository.PathOf("config", "plant.yaml")).Cell!;
        var storage = new SqliteStorage { Folder = folder.FullName };
        using var readings = SqliteReadings.Open(storage, cell, TimeProvider.System, NullLogger<SqliteReadings>.Instance);
        using var ledger = SqliteLedger.Open(storage, cell.Id, TimeProvider.System, NullLogger<SqliteLedger>.Instance);
        var ports = new CellLoopPorts
        {
            Source = new NoSource(),
            Readings = readings,
            Ledger = ledger,
            Channels = [],
            EventLine = LedgerLines.Of,
            DecisionLine = LedgerLines.Of,
            Checkpoint = state => new MachineCheckpoint(state.Machine, MachineStateJson.Text(state)),
            State = checkpoint => MachineStateJson.Read(checkpoint.Json).State,
            Event = line => EventDecoder.DecodeLine(System.Text.Encoding.UTF8.GetBytes(line.Json)).Event,
            Show = _ => { },
        };
        var world = new VirtualCell(cell, DemoScripts.WeekWithHistory(cell, 7));
        await new LivedPast(world, new PlantVersion(cell, "history"), ports).LiveAsync(DemoScripts.MondayMidnight(cell), _ => { }, TestContext.Current.CancellationToken);
        var lines = new List<LedgerLine>();
        await foreach (var entry in ledger.AllAsync(0, TestContext.Current.CancellationToken)) lines.Add(entry.Line);
        return lines;
    }

    private sealed class NoSource : IReadingSource
    {
        public System.Threading.Channels.ChannelReader<Arrival> Arrivals { get; } = System.Threading.Channels.Channel.CreateUnbounded<Arrival>().Reader;

        public ValueTask AcknowledgeAsync(ReadOnlyMemory<Arrival> batch, CancellationToken cancellation) => default;
    }
}
