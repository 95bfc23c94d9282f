using System.Globalization;
using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>Which temperatures an inspection device takes into account.</summary>
public enum DeviceMode
{
    /// <summary>None: part and scale expand in what it says.</summary>
    None,

    /// <summary>The scale is put right, the part is not.</summary>
    DeviceOnly,

    /// <summary>Both are put right with the temperature of the device.</summary>
    DeviceAndPartSame,

    /// <summary>Both are put right, each with its own temperature.</summary>
    DeviceAndPartSeparate,
}

/// <summary>One row of what the inspection found.</summary>
public sealed record InspectionRow(
    AskRecord Cut, string Feature, int? Hole, DateTimeOffset Time, double DeviationMicrometres, double? DxMicrometres, double? DyMicrometres,
    double UMicrometres, DeviceMode Mode, double PartCelsius, double DeviceCelsius)
{
    /// <summary>The columns of <c>results.csv</c>.</summary>
    public const string Header = "serial,part,operation,machine,feature,hole,time,deviationUm,dxUm,dyUm,uUm,device,compensation,partC,deviceC";

    /// <summary>The row as a line of <c>results.csv</c>.</summary>
    public string Line(string operation, string device) => string.Create(
        CultureInfo.InvariantCulture,
        $"{Cut.Serial},{Cut.Part},{operation},{Cut.Machine},{Feature},{Hole},{Time:yyyy-MM-dd'T'HH:mm:ss'Z'},{DeviationMicrometres:0.00},{DxMicrometres:0.00},{DyMicrometres:0.00},{UMicrometres:0.0},{device},{Word(Mode)},{PartCelsius:0.00},{DeviceCelsius:0.00}");

    private static string Word(DeviceMode mode) => mode switch
    {
        DeviceMode.None => "NONE",
        DeviceMode.DeviceOnly => "DEVICE_ONLY",
        DeviceMode.DeviceAndPartSame => "DEVICE_AND_PART_SAME",
        _ => "DEVICE_AND_PART_SEPARATE",
    };
}

/// <summary>A measuring machine or optical scanner: y = truth + N(0, s), plus what its temperature mode leaves in.</summary>
/// <remarks>
/// s is 4 µm for a component of a hole and 3 µm for a size. The truth of a hole is that of the minute in which it was cut. What is not thermal
/// comes on top: a tool that wears by 0.4 µm a part and is changed after 20 (distances), and the shifts a script names (a probe wrongly set).
/// </remarks>
public sealed class InspectionDevice
{
    private const double HoleComponent = 4.0;
    private const double Size = 3.0;
    private const double WearPerPart = 0.4;
    private const int PartsPerTool = 20;
    private const double DeviceAlpha = 8.0;
    private readonly VirtualCell cell;
    private readonly Chance chance;
    private readonly Dictionary<string, int> partsOnTool = new(StringComparer.Ordinal);

    /// <summary>A device that inspects what a cell has made; the cell must keep its truth.</summary>
    public InspectionDevice(VirtualCell cell, int seed)
    {
        ArgumentNullException.ThrowIfNull(cell);
        this.cell = cell;
        chance = new Chance(seed, "inspection");
    }

    /// <summary>Its mode.</summary>
    public DeviceMode Mode { get; set; } = DeviceMode.DeviceAndPartSeparate;

    /// <summary>Temperature of part and device at inspection, in °C.</summary>
    public (double Part, double Device) Celsius { get; set; } = (20.0, 20.0);

    /// <summary>A shift of the whole pattern that is not thermal, in µm, by serial.</summary>
    public Dictionary<string, (double X, double Y)> Shifts { get; } = new(StringComparer.Ordinal);

    /// <summary>What a person's clamping adds to a distance, in µm, by serial.</summary>
    public Dictionary<string, double> Offsets { get; } = new(StringComparer.Ordinal);

    /// <summary>Inspects one cut some hours later; empty when the cell knows no truth of it.</summary>
    public IReadOnlyList<InspectionRow> Inspect(AskRecord cut, DateTimeOffset time)
    {
        ArgumentNullException.ThrowIfNull(cut);
        if (cell.Truth is null || cell.Description.FindPart(cut.Part) is not { } part || cell.FindMachine(cut.Machine) is not { } machine) return [];
        var rows = new List<InspectionRow>();
        foreach (var feature in part.Features.Where(f => cut.Feature is null || f.Id == cut.Feature))
        {
            if (feature is PositionFeature position) rows.AddRange(Holes(cut, position, machine.Machine.IndexAxis, part, time));
            else if (Minute(cut, 1.0) is { } minute) rows.Add(One(cut, feature, machine.Machine, part, minute, time));
        }

        return rows;
    }

    private IEnumerable<InspectionRow> Holes(AskRecord cut, PositionFeature feature, RotaryAxis indexAxis, Part part, DateTimeOffset time)
    {
        var (sx, sy) = Shifts.GetValueOrDefault(cut.Serial);
        for (var i = 0; i < feature.Points.Count; i++)
        {
            if (Minute(cut, (i + 1.0) / feature.Points.Count) is not { } minute) yield break;
            var (x, y) = TrueEffect.Hole(feature, i, minute.StrainMicrometresPerMetre, minute.Position - cut.ProbedAt, indexAxis);
            var left = LeftIn(part) / 1000.0;
            var dx = x + sx + (left * feature.Points[i].X) + (HoleComponent * chance.Normal());
            var dy = y + sy + (left * feature.Points[i].Y) + (HoleComponent * chance.Normal());
            yield return new InspectionRow(
                cut, feature.Id, i + 1, time, 2 * Math.Sqrt((dx * dx) + (dy * dy)), dx, dy, HoleComponent, Mode, Celsius.Part, Celsius.Device);
        }
    }

    private InspectionRow One(AskRecord cut, Feature feature, Machine machine, Part part, in TruthMinute minute, DateTimeOffset time)
    {
        var effect = TrueEffect.Micrometres(feature, minute.StrainMicrometresPerMetre, minute.Position - cut.ProbedAt, machine.IndexAxis);
        var nominal = feature switch
        {
            SizeFeature size => size.NominalMillimetres,
            DepthFeature depth => depth.NominalMillimetres,
            DistanceFeature distance => distance.NominalMillimetres,
            _ => 0,
        };
        var y = effect + Wear(feature, cut) + (LeftIn(part) * nominal / 1000.0) + (Size * chance.Normal());
        return new InspectionRow(cut, feature.Id, null, time, y, null, null, Size, Mode, Celsius.Part, Celsius.Device);
    }

    private double Wear(Feature feature, AskRecord cut)
    {
        if (feature is not DistanceFeature) return 0;
        var made = partsOnTool[cut.Part] = (partsOnTool.GetValueOrDefault(cut.Part) + 1) % PartsPerTool;
        return (WearPerPart * made) + Offsets.GetValueOrDefault(cut.Serial);
    }

    // What the mode leaves in of part and device expansion, in µm/m.
    private double LeftIn(Part part)
    {
        var alpha = part.Material.AlphaMicrometresPerMetreKelvin;
        var (ofPart, ofDevice) = (Celsius.Part - 20.0, Celsius.Device - 20.0);
        return Mode switch
        {
            DeviceMode.None => (alpha * ofPart) - (DeviceAlpha * ofDevice),
            DeviceMode.DeviceOnly => alpha * ofPart,
            DeviceMode.DeviceAndPartSame => alpha * (ofPart - ofDevice),
            _ => 0,
        };
    }

    private TruthMinute? Minute(AskRecord cut, double share) => cell.Truth!.At(cut.Machine, cut.Serial, cut.Time + (cut.Duration * share) - TimeSpan.FromMinutes(1));
}
