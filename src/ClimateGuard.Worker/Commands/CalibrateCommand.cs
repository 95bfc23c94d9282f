using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Settings;

namespace ClimateGuard.Worker.Commands;

/// <summary><c>climateguard calibrate</c>: offsets of the probes in one dry block, ready for the plant file.</summary>
internal static class CalibrateCommand
{
    private static readonly Option<string> ReadingsFile = new("--readings") { Description = "readings.csv, plain or gzip.", HelpName = "FILE", Required = true };
    private static readonly Option<DateTimeOffset?> From = new("--from") { Description = "The probes are in the block from then on (RFC 3339).", HelpName = "TIME" };
    private static readonly Option<DateTimeOffset?> To = new("--to") { Description = "They are in it until then.", HelpName = "TIME" };
    private static readonly Option<string?> Reference = new("--reference") { Description = "The sensor that is right, in the same block; its own calibration is taken off.", HelpName = "SENSOR" };
    private static readonly Option<double?> BlockCelsius = new("--block-celsius") { Description = "What the block is known to be, in °C.", HelpName = "C" };
    private static readonly Option<double> BlockU = new("--block-u") { Description = "Standard uncertainty (k = 1) of it, in K.", HelpName = "K", DefaultValueFactory = _ => 0.02 };
    private static readonly Option<DateTimeOffset?> SecondFrom = new("--second-from") { Description = "A second temperature from then on, for the gain.", HelpName = "TIME" };
    private static readonly Option<DateTimeOffset?> SecondTo = new("--second-to") { Description = "Until then.", HelpName = "TIME" };
    private static readonly Option<double?> SecondCelsius = new("--second-celsius") { Description = "What the block is known to be then, in °C.", HelpName = "C" };

    public static Command Create()
    {
        var command = new Command("calibrate", "Offsets of temperature probes that sit together in one dry block, as calibrations for the plant file.\n"
            + "Without --reference and --block-celsius the middle of the probes counts: right for their differences.\n\n"
            + "Example: climateguard calibrate --plant config/plant.yaml --readings block.csv --from 2026-01-10T06:00:00Z --to 2026-01-10T08:00:00Z --block-celsius 20.000")
        {
            CommandLine.Plant, ReadingsFile, From, To, Reference, BlockCelsius, BlockU, SecondFrom, SecondTo, SecondCelsius,
        };
        command.SetAction(Run);
        return command;
    }

    private static int Run(ParseResult parsed)
    {
        var plant = PlantFileReader.Read(ShippedFiles.Plant(parsed.GetValue(CommandLine.Plant)));
        if (plant.Cell is not { } cell)
        {
            return Refuse(string.Join(Environment.NewLine, plant.Problems));
        }

        var name = parsed.GetValue(Reference);
        var sensor = name is null ? -1 : cell.IndexOfSensor(name);
        if (name is not null && sensor < 0)
        {
            return Refuse($"--reference {name} is not in the plant file ({NearestNames.Hint(name, [.. cell.Sensors.Select(s => s.Id)])}).");
        }

        if (name is not null && parsed.GetValue(BlockCelsius) is not null)
        {
            return Refuse("--reference and --block-celsius may contradict each other; state one of them.");
        }

        try
        {
            var (result, refused) = Judge(parsed, cell, sensor);
            if (result is null)
            {
                return Refuse(refused!);
            }

            Console.Out.WriteLine(parsed.GetValue(CommandLine.Json) ? Json(result) : CalibrationText.Of(result));
            return CommandLine.Done;
        }
        catch (UnreadableFileException unreadable)
        {
            return Refuse(unreadable.Message);
        }
    }

    private static (BlockResult? Result, string? Refused) Judge(ParseResult parsed, Cell cell, int sensor)
    {
        var file = parsed.GetRequiredValue(ReadingsFile);
        var first = At(parsed, cell, sensor, Read(file, cell, sensor, parsed.GetValue(From), parsed.GetValue(To)), parsed.GetValue(BlockCelsius));
        if (first.Result is null || parsed.GetValue(SecondFrom) is not { } from)
        {
            return first;
        }

        var (second, refused) = At(parsed, cell, sensor, Read(file, cell, sensor, from, parsed.GetValue(SecondTo)), parsed.GetValue(SecondCelsius));
        if (second is null)
        {
            return (null, $"second temperature: {refused}");
        }

        return Math.Abs(second.BlockCelsius - first.Result.BlockCelsius) < 2
            ? (null, "the two temperatures of the block lie less than 2 K apart; for a gain they should lie 10 K apart.")
            : (DryBlock.WithGain(first.Result, second), null);
    }

    private static (BlockResult? Result, string? Refused) At(ParseResult parsed, Cell cell, int sensor, BlockReadings readings, double? celsius)
    {
        var last = readings.Probes.Select(readings.MinutesOf).Select(minutes => minutes.Keys.Last()).DefaultIfEmpty().Max();
        var reference = sensor >= 0
            ? new BlockReference(sensor, null, new CalibrationHistory(cell.Sensors[sensor]).UncertaintyAt(last * 60_000L))
            : celsius is { } stated ? new BlockReference(-1, stated, parsed.GetValue(BlockU)) : BlockReference.MiddleOfProbes;
        return DryBlock.Judge(readings, reference);
    }

    private static BlockReadings Read(string file, Cell cell, int reference, DateTimeOffset? from, DateTimeOffset? to)
    {
        var readings = new BlockReadings(cell);
        var own = reference < 0 ? null : new CalibrationHistory(cell.Sensors[reference]);
        using var rows = ReadingsFileReader.Open(file, cell);
        while (rows.Read(out var row))
        {
            if (row.Trust != Trust.Quarantined && !(row.Time < from) && !(row.Time >= to))
            {
                var off = row.Raw.Sensor == reference ? own!.OffsetAt(row.EpochMilliseconds) : 0;
                readings.Add(row.Raw with { Value = row.Raw.Value - off });
            }
        }

        return readings;
    }

    private static string Json(BlockResult result) => JsonSerializer.Serialize(
        new
        {
            from = result.From, to = result.To, blockC = result.BlockCelsius, leftOut = result.LeftOut,
            sensors = result.Probes.Select(probe => new
            {
                id = probe.Sensor, offset = probe.OffsetKelvins, uncertainty = probe.UncertaintyKelvins, repeatability = probe.RepeatabilityKelvins,
                drift = probe.DriftKelvins, minutes = probe.Minutes, gainError = probe.GainError,
            }),
        });

    private static int Refuse(string why)
    {
        Console.Error.WriteLine($"climateguard: {why}");
        return CommandLine.BadInput;
    }
}
