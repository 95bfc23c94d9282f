using System.Globalization;
using System.Text.Json;
using ClimateGuard.Edges.Json;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Plant;
using ClimateGuard.Simulator;
using ClimateGuard.SystemTests.Support;

namespace ClimateGuard.SystemTests;

/// <summary>Thursday and Friday of the scripted week, inspected: the verb must find what the script did, and must not find what it did not.</summary>
/// <remarks>What is true is what the script did (domain of the virtual cell, which shares no model with the program); it is not the program's own answer.</remarks>
public sealed class EvidenceWeekTests
{
    [Fact]
    public async Task The_verb_explains_the_disc_in_warm_coolant_and_excludes_temperature_for_the_wrong_calibration()
    {
        var folder = Directory.CreateTempSubdirectory("climateguard-evidence-week-").FullName;
        var plant = Path.Combine(WorkerProcess.Repository, "config", "plant.yaml");
        Write(folder, PlantFileReader.Read(plant).Cell!);
        string At(string name) => Path.Combine(folder, name);

        var (exitCode, output, errors) = await WorkerProcess.RunToEndAsync(
            "evidence", "--plant", plant, "--readings", At("readings.csv"), "--events", At("events.jsonl"), "--results", At("results.csv"), "--json");

        Assert.True(exitCode == 0, errors);
        var answer = JsonSerializer.Deserialize<JsonElement>(output);
        var levels = answer.GetProperty("features").EnumerateArray().ToLookup(one => one.GetProperty("serial").GetString()!, one => one.GetProperty("level").GetInt32());
        Assert.InRange(Assert.Single(levels["FD-1100-0442"]), 4, 5);
        Assert.All(new[] { "PC-620-120", "PC-620-121" }, serial => Assert.InRange(Assert.Single(levels[serial]), 1, 2));
        Assert.All(levels.Where(one => one.Key.StartsWith("PH-340", StringComparison.Ordinal)).SelectMany(one => one), level => Assert.InRange(level, 0, 2));
        Assert.Contains(answer.GetProperty("unknown").EnumerateArray(), said => said.GetString()!.Contains("is not known: no job, permit or cut names it", StringComparison.Ordinal));

        var wrong = At("wrong.csv");
        await File.WriteAllTextAsync(wrong, (await File.ReadAllTextAsync(At("results.csv"))).Replace(",M3,", ",M33,", StringComparison.Ordinal));
        var (refused, _, said) = await WorkerProcess.RunToEndAsync("evidence", "--plant", plant, "--readings", At("readings.csv"), "--events", At("events.jsonl"), "--results", wrong);
        Assert.Equal(2, refused);
        Assert.Contains("machine M33 is not in the plant file", said, StringComparison.Ordinal);
        Directory.Delete(folder, recursive: true);
    }

    // Thursday with its tripped chiller, until a re-probe on Friday has checked the model of the machine; the cell lives through the whole week so that masses have their past.
    private static void Write(string folder, Cell cell)
    {
        var monday = DemoScripts.MondayMidnight(cell);
        var (from, to) = (monday.AddHours(75), monday.AddHours(111));
        var world = new VirtualCell(cell, DemoScripts.Week(cell, 7) with { KeepsTruth = true });
        using var rows = new StreamWriter(Path.Combine(folder, "readings.csv"));
        using var lines = File.Create(Path.Combine(folder, "events.jsonl"));
        rows.WriteLine("time,sensor,value,unit");
        world.Advance(
            to,
            reading =>
            {
                var sensor = cell.Sensors[reading.Sensor];
                if (reading.Time >= from && sensor.Quantity is SensorQuantity.Temperature or SensorQuantity.RelativeHumidity)
                {
                    rows.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{Rfc3339.Text(reading.Time)},{sensor.Id},{reading.Value},{(sensor.Quantity == SensorQuantity.Temperature ? "C" : "%")}"));
                }
            },
            happened =>
            {
                if (happened.Time >= from)
                {
                    lines.Write(EventJson.ToUtf8(happened));
                    lines.WriteByte((byte)'\n');
                }
            });
        File.WriteAllLines(Path.Combine(folder, "results.csv"), WeekInspection.Lines(world, 7));
    }
}
