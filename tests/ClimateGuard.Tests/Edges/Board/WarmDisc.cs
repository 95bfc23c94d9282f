using System.Globalization;
using System.Text;
using ClimateGuard.Edges.Board;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.Json;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Edges.Board;

/// <summary>
/// A disc that stands in coolant of 24 °C for three hours before it is cut on a machine at 20 °C. By the formula of ISO/TR 16015 its pattern is later
/// −11.5 µm/(m·K) · 4 K = −46 µm/m too small: 2 · 0.4 m · 46 µm/m = 36.8 µm of its 60.
/// </summary>
internal sealed class WarmDisc : IDisposable
{
    public const double Eps = -46;
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("climateguard-warm-disc-");

    public Cell Cell { get; } = SmallCell.Of();

    public string Serial { get; init; } = "S1";

    /// <summary>The air falls silent when the cut begins.</summary>
    public bool AirIsLost { get; init; }

    /// <summary>A span is probed before the cut: reading minus length, L·αp·4 K over 600 mm.</summary>
    public bool SpanIsProbed { get; init; } = true;

    public string Compensation { get; init; } = "DEVICE_AND_PART_SEPARATE";

    public double MeasuredEps { get; init; } = Eps;

    public async Task<BoardData> RunAsync(CancellationToken cancellation, TimeSpan? outlooksUpTo = null)
    {
        var (readings, events) = (Path.Combine(folder.FullName, "readings.csv"), Path.Combine(folder.FullName, "events.jsonl"));
        await File.WriteAllTextAsync(readings, Readings(), cancellation);
        await File.WriteAllLinesAsync(events, Events().Select(happened => Encoding.UTF8.GetString(EventJson.ToUtf8(happened))), cancellation);
        var results = InspectionFile.Read(Encoding.UTF8.GetBytes(Results()), Cell);
        Assert.Empty(results.Problems);
        return await EvidenceRun.RunAsync(
            new EvidenceFiles { Cell = Cell, ConfigVersion = "v1", Readings = readings, Events = events, Values = results.Values, ResultsSha256 = "r", OutlooksUpTo = outlooksUpTo ?? EvidenceFiles.UsualOutlooksUpTo }, null, cancellation);
    }

    public void Dispose() => folder.Delete(recursive: true);

    public string Results()
    {
        var points = ((PositionFeature)Cell.Parts[0].Features[0]).Points;
        var rows = points.Select((point, i) => string.Create(
            CultureInfo.InvariantCulture,
            $"\"{Serial.Replace("\"", "\"\"", StringComparison.Ordinal)}\",D-1,40,M1,holes,{i + 1},2026-03-02T14:00:00Z,,{(MeasuredEps * point.X / 1000) + (i % 2):0.000},{(MeasuredEps * point.Y / 1000) - (i % 3) + 1:0.000},2,CMM,{Compensation},20.0,20.0"));
        return "serial,part,operation,machine,feature,hole,time,deviationUm,dxUm,dyUm,uUm,device,compensation,partC,deviceC\n" + string.Join('\n', rows) + "\n";
    }

    private string Readings()
    {
        var text = new StringBuilder("time,sensor,value,unit\n");
        for (var seconds = 0; seconds <= 4 * 3600; seconds += 20)
        {
            var time = Rfc3339.Text(Some.Morning.AddSeconds(seconds));
            var wave = 0.02 * Math.Sin(seconds / 300.0);
            foreach (var air in (string[])["air/a1", "air/a2", "air/a3"])
            {
                if (!AirIsLost || seconds <= 3 * 3600)
                {
                    text.Append(CultureInfo.InvariantCulture, $"{time},{air},{20 + wave:0.000},C\n");
                }
            }

            text.Append(CultureInfo.InvariantCulture, $"{time},m1/coolant,{24 + wave:0.000},C\n");
        }

        return text.ToString();
    }

    private IEnumerable<CellEvent> Events()
    {
        yield return new JobLoaded(Some.Morning, "M1") { Serial = Serial, Part = "D-1", Operation = "40", Pallet = "P3", EnteredCell = Some.Morning, Start = new Celsius(20), StartUncertainty = new Kelvins(0.2) };
        yield return new DatumProbed(Some.Morning.AddMinutes(1), "M1", [Axis.X, Axis.Y, Axis.Z]);
        yield return new CoolantSwitched(Some.Morning.AddMinutes(2), "M1", true);
        if (SpanIsProbed)
        {
            yield return new SpanProbed(Some.Morning.AddMinutes(170), "M1") { LengthMillimetres = 600, ErrorMicrometres = 0.6 * 11.5 * 4, UMicrometres = 1.4 };
        }

        yield return new CutMoved(Some.Morning.AddMinutes(180), "M1") { Started = true, Serial = Serial, Operation = "40" };
        yield return new CutMoved(Some.Morning.AddMinutes(210), "M1") { Started = false, Serial = Serial, Operation = "40" };
    }
}
