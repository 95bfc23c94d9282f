using System.Globalization;
using System.Text;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.Json;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Benchmarks.EvidenceSpeed;

/// <summary>The files of a year: every sensor that heat is computed from once a minute, parts one after the other on every machine, each hole inspected.</summary>
internal sealed class YearOfCuts(Cell cell, int results, int days)
{
    private static readonly DateTimeOffset Begin = new(2025, 1, 6, 0, 0, 0, TimeSpan.Zero);
    private static readonly SensorPlace[] Used =
        [SensorPlace.Air, SensorPlace.Coolant, SensorPlace.Dielectric, SensorPlace.Part, SensorPlace.Scale, SensorPlace.Structure, SensorPlace.Storage, SensorPlace.Hall];

    public async Task WriteAsync(string folder)
    {
        Directory.CreateDirectory(folder);
        var (events, rows) = Cuts();
        await File.WriteAllLinesAsync(Path.Combine(folder, "events.jsonl"), events.OrderBy(one => one.Time).Select(one => Encoding.UTF8.GetString(EventJson.ToUtf8(one))));
        await File.WriteAllLinesAsync(Path.Combine(folder, "results.csv"), rows);
        await using var file = File.Create(Path.Combine(folder, "readings.parquet"));
        await using var output = await ReadingsOutput.BeginAsync(file, "readings.parquet");
        for (var index = 0; index < cell.Sensors.Count; index++)
        {
            if (!Used.Contains(cell.Sensors[index].Place) || cell.Sensors[index].Quantity != SensorQuantity.Temperature) continue;
            for (var minute = 0; minute < days * 1440; minute++)
            {
                var time = Begin.AddMinutes(minute).ToUnixTimeMilliseconds() + (index * 100);
                var value = Math.Round(20 + (0.8 * Math.Sin((minute / 229.0) + index)) + (0.02 * ((minute * 7919 % 13) - 6)), 3);
                await output.AddAsync(cell.Sensors[index], new StoredReading(time, value, value, Trust.Accepted, TrustReason.None), default);
            }
        }

        await output.FinishAsync(default);
    }

    private (List<CellEvent> Events, List<string> Rows) Cuts()
    {
        var (events, rows) = (new List<CellEvent>(), new List<string> { "serial,part,operation,machine,feature,hole,time,deviationUm,dxUm,dyUm,uUm,device,compensation,partC,deviceC" });
        (Machine Machine, Part Part, PositionFeature Pattern)[] kinds =
        [
            .. from part in cell.Parts from id in part.Machines from pattern in part.Features.OfType<PositionFeature>().Take(1) select (cell.FindMachine(id)!, part, pattern),
        ];
        var machines = kinds.GroupBy(kind => kind.Machine.Id).ToArray();
        var perRound = machines.Sum(group => group.Average(kind => kind.Pattern.Points.Count));
        var rounds = (int)Math.Ceiling(results / perRound);
        var every = TimeSpan.FromDays(days - 1) / rounds;
        for (var round = 0; round < rounds; round++)
        {
            foreach (var group in machines) Cut(group.ElementAt(round % group.Count()), round, Begin + TimeSpan.FromHours(12) + (every * round), events, rows);
        }

        return (events, [.. rows.Take(results + 1)]);
    }

    private static void Cut((Machine Machine, Part Part, PositionFeature Pattern) kind, int number, DateTimeOffset time, List<CellEvent> events, List<string> rows)
    {
        var (id, serial) = (kind.Machine.Id, FormattableString.Invariant($"{kind.Part.Number}-{kind.Machine.Id}-{number}"));
        events.Add(new JobLoaded(time, id) { Serial = serial, Part = kind.Part.Number, Operation = "40", Start = new Celsius(20 + (number % 7)), StartUncertainty = new Kelvins(0.3), EnteredCell = time });
        events.Add(new DatumProbed(time.AddMinutes(1), id, [Axis.X, Axis.Y, Axis.Z]));
        events.Add(new ContactMeasured(time.AddMinutes(20), id) { Value = new Celsius(20 + (number % 7 * 0.7)), Uncertainty = new Kelvins(0.1) });
        events.Add(new CutMoved(time.AddMinutes(25), id) { Started = true, Serial = serial, Operation = "40" });
        events.Add(new CutMoved(time.AddMinutes(60), id) { Started = false, Serial = serial, Operation = "40" });
        events.Add(new JobLoaded(time.AddMinutes(65), id) { Serial = "", Part = "", Operation = "" });
        for (var hole = 0; hole < kind.Pattern.Points.Count; hole++)
        {
            var (point, eps) = (kind.Pattern.Points[hole], -11.5 * (number % 7) * 0.6);
            double dx = (eps * point.X / 1000) + ((hole * 31 % 7) - 3), dy = (eps * point.Y / 1000) + ((hole * 17 % 7) - 3);
            rows.Add(string.Create(
                CultureInfo.InvariantCulture, $"{serial},{kind.Part.Number},40,{id},{kind.Pattern.Id},{hole + 1},{time.AddHours(3):yyyy-MM-dd'T'HH:mm:ss'Z'},{2 * double.Hypot(dx, dy):0.00},{dx:0.00},{dy:0.00},4.0,CMM-1,DEVICE_AND_PART_SEPARATE,20.1,20.0"));
        }
    }
}
