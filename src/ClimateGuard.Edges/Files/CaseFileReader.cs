using System.Text.Json;
using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Edges.Files;

/// <summary>Reads a case for <c>evaluate</c>.</summary>
/// <remarks>
/// <c>{machine, part, coolant?, plannedMinutes?, state:{partC, partU, scaleC, scaleU, airC?, coolantC?}, drift?:{x,y,z,u}}</c>. Unknown fields
/// are ignored. <c>coolant</c> is true or false, or the coolant's temperature in °C. Without <c>airC</c> nothing moves during the cut.
/// </remarks>
public static class CaseFileReader
{
    private const int MostBytes = 1 << 20;
    private const int Paths = 4000;

    /// <summary>Reads a case file of at most 1 MiB.</summary>
    /// <param name="path">The file.</param>
    /// <param name="cell">The cell that knows machine and part.</param>
    public static CaseReading Read(string path, Cell cell)
    {
        ArgumentNullException.ThrowIfNull(path);
        try
        {
            var file = new FileInfo(path);
            return !file.Exists ? Refused($"{path}: there is no such file.")
                : file.Length > MostBytes ? Refused($"{path}: has {file.Length} bytes; a case has at most {MostBytes}.")
                : Parse(path, File.ReadAllText(path), cell);
        }
        catch (Exception broken) when (broken is IOException or UnauthorizedAccessException)
        {
            return Refused($"{path}: cannot be read: {broken.Message}");
        }
    }

    /// <summary>Reads a case from its text.</summary>
    /// <param name="name">How messages name it.</param>
    /// <param name="text">The JSON text.</param>
    /// <param name="cell">The cell that knows machine and part.</param>
    public static CaseReading Parse(string name, string text, Cell cell)
    {
        ArgumentNullException.ThrowIfNull(cell);
        try
        {
            using var document = JsonDocument.Parse(text);
            var fields = new CaseFields(name, document.RootElement);
            var stated = fields.IsObject ? Build(fields, cell) : null;
            return fields.Problems.Count > 0 ? new CaseReading(null, fields.Problems) : new CaseReading(stated, []);
        }
        catch (JsonException broken)
        {
            return Refused($"{name}:{broken.LineNumber + 1}: this is not JSON: {broken.Message}");
        }
    }

    private static StatedCase? Build(CaseFields fields, Cell cell)
    {
        var machine = Find(fields, "machine", cell.FindMachine, cell.Machines.Select(m => m.Id));
        var part = Find(fields, "part", cell.FindPart, cell.Parts.Select(p => p.Number));
        var state = fields.Object("state", required: true);
        var drift = fields.Object("drift", required: false);
        var air = state.Number("airC", null, -50, 80);
        var temperatures = new StatedTemperatures
        {
            Part = new(state.Required("partC", -50, 150)),
            PartUncertainty = new(state.Number("partU", 0.1, 0, 50)!.Value),
            Scale = new(state.Required("scaleC", -50, 80)),
            ScaleUncertainty = new(state.Number("scaleU", 0.1, 0, 50)!.Value),
            Air = air is { } celsius ? new Celsius(celsius) : null,
            DriftX = drift.Number("x", 0, -1e5, 1e5)!.Value,
            DriftY = drift.Number("y", 0, -1e5, 1e5)!.Value,
            DriftZ = drift.Number("z", 0, -1e5, 1e5)!.Value,
            DriftUncertainty = drift.Number("u", 0, 0, 1e5)!.Value,
        };
        var coolant = Coolant(fields, state);
        var planned = fields.Number("plannedMinutes", null, 0.01, 2880);
        if (fields.Problems.Count > 0 || machine is null || part is null)
        {
            return null;
        }

        var cut = new CutAhead
        {
            Surroundings = Around(machine, air, temperatures.Scale.Value, coolant),
            Planned = planned is { } minutes ? TimeSpan.FromMinutes(minutes) : null,
            Paths = Paths,
        };
        return new StatedCase(machine, part, temperatures, cut);
    }

    private static T? Find<T>(CaseFields fields, string name, Func<string, T?> find, IEnumerable<string> known)
        where T : class
    {
        if (fields.Text(name) is not { } wanted)
        {
            return null;
        }

        var found = find(wanted);
        if (found is null)
        {
            fields.Add(name, $"{wanted} is not in the plant file; {NearestNames.Hint(wanted, [.. known])}");
        }

        return found;
    }

    private static double? Coolant(CaseFields fields, CaseFields state)
    {
        if (fields.Element("coolant") is not { } coolant || coolant.ValueKind is JsonValueKind.False or JsonValueKind.Null)
        {
            return null;
        }

        if (coolant.ValueKind == JsonValueKind.Number)
        {
            return fields.Number("coolant", null, -20, 80);
        }

        if (coolant.ValueKind != JsonValueKind.True)
        {
            fields.Add("coolant", "true, false or a temperature in °C is allowed");
            return null;
        }

        if (state.Element("coolantC") is not null)
        {
            return state.Number("coolantC", null, -20, 80);
        }

        fields.Add("coolant", "it runs, so its temperature is needed: write the number in °C here, or state.coolantC");
        return null;
    }

    private static Surroundings Around(Machine machine, double? air, double scale, double? coolant)
    {
        if (coolant is { } celsius)
        {
            var medium = machine.CoolantMedium switch
            {
                CoolantMedium.Mist => Medium.Mist,
                CoolantMedium.Submerged => Medium.Submerged,
                _ => Medium.Flood,
            };
            return new Surroundings(air ?? scale, medium, celsius);
        }

        return air is { } moving ? new Surroundings(moving) : new Surroundings(scale, Medium.Still);
    }

    private static CaseReading Refused(string problem) => new(null, [problem]);
}
