using System.Text.Json;
using System.Text.RegularExpressions;
using ClimateGuard.Edges.Json;
using ClimateGuard.Evidence;
using ClimateGuard.Plant;

namespace ClimateGuard.Edges.Files;

/// <summary>Reads the mapping of a device, a small JSON file; a word that is not known is refused, not passed over.</summary>
public static partial class DeviceMappingReader
{
    /// <summary>The largest mapping that is read, in bytes.</summary>
    public const int MostBytes = 256 * 1024;

    private static readonly Dictionary<string, double> Units = new(StringComparer.Ordinal)
    {
        ["um"] = 1, ["µm"] = 1, ["mm"] = 1000, ["m"] = 1e6, ["in"] = 25_400, ["mil"] = 25.4,
    };

    private static readonly string[] Temperatures = ["partC", "deviceC"];

    private static readonly JsonSerializerOptions Form = new(JsonSerializerDefaults.Web)
    {
        UnmappedMemberHandling = System.Text.Json.Serialization.JsonUnmappedMemberHandling.Disallow,
        ReadCommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true,
    };

    /// <summary>The units a mapping or a column <c>unit</c> may name.</summary>
    public static string AllowedUnits => string.Join(", ", Units.Keys);

    /// <summary>How many µm a unit is, or null when it is not known.</summary>
    public static double? MicrometresPer(string unit) => Units.TryGetValue(unit, out var factor) ? factor : null;

    /// <summary>Whether a text can be the id of a device: 1 to 60 of letters, digits, point, dash, underscore.</summary>
    public static bool IsDeviceId(string? text) => text is not null && DeviceId().IsMatch(text);

    /// <summary>Reads a mapping.</summary>
    /// <param name="json">The file.</param>
    /// <returns>The mapping, or what is wrong with it; never both.</returns>
    public static (DeviceMapping? Mapping, IReadOnlyList<string> Problems) Read(ReadOnlySpan<byte> json)
    {
        if (json.Length > MostBytes)
        {
            return (null, [$"the mapping has {json.Length} bytes; at most {MostBytes} are read"]);
        }

        try
        {
            var stated = JsonSerializer.Deserialize<Stated>(json.StartsWith("\uFEFF"u8) ? json[3..] : json, Form);
            return stated is null ? (null, ["the mapping is empty"]) : Check(stated);
        }
        catch (JsonException broken)
        {
            return (null, [$"line {(broken.LineNumber ?? 0) + 1}: {Printable.Clean(broken.Message.Split(" Path:")[0].TrimEnd('.'), 160)}"]);
        }
    }

    private static (DeviceMapping?, IReadOnlyList<string>) Check(Stated stated)
    {
        var problems = new List<string>();
        void Need(bool good, string problem)
        {
            if (!good)
            {
                problems.Add(problem);
            }
        }

        Need(IsDeviceId(stated.Device), "device: 1 to 60 letters, digits, points, dashes and underscores are needed");
        Need(stated.Unit is not null && Units.ContainsKey(stated.Unit), $"unit: one of {AllowedUnits} is needed; a unit is never assumed");
        Need(stated.Decimal is "." or ",", "decimal: \".\" or \",\" is allowed");
        Need(stated.Separator is { Length: 1 } && stated.Separator != stated.Decimal, "separator: one character other than the decimal sign is allowed");
        Need(stated.HeaderLine is >= 1 and <= 1000, "headerLine: 1 to 1000 is allowed");
        Need(stated.FirstRow is null || (stated.FirstRow > stated.HeaderLine && stated.FirstRow <= 2000), "firstRow: a line after headerLine is allowed");
        Need(stated.Position is "diametral" or "radial", "position: diametral or radial is allowed");
        Need(stated.Sign is "measuredMinusNominal" or "nominalMinusMeasured", "sign: measuredMinusNominal or nominalMinusMeasured is allowed");
        Need(stated.TemperatureUnit is "C" or "F" or "K", "temperatureUnit: C, F or K is allowed");
        Need(stated.Compensation is null || CompensationWords.Read(stated.Compensation) is not null, $"compensation: {CompensationWords.Allowed} is allowed");
        Need(stated.ScaleAlpha is null or (>= -2 and <= 40), "scaleAlpha: -2 to 40 µm/(m·K) is allowed");
        Need(stated.UUm is null or (> 0 and <= 1000), "uUm: more than 0 and up to 1000 µm is allowed");
        foreach (var name in stated.Columns.Keys.Concat(stated.Fixed.Keys).Where(name => !DeviceMapping.ColumnNames.Contains(name)))
        {
            Need(false, $"columns: \"{Printable.Clean(name, 40)}\" is not known; {NearestNames.Hint(name, DeviceMapping.ColumnNames)}");
        }

        var time = Time(stated.Time, problems);
        return problems.Count > 0 ? (null, problems) : WithTemperatures(Mapping(stated, time));
    }

    private static (DeviceMapping?, IReadOnlyList<string>) WithTemperatures(DeviceMapping mapping)
    {
        string[] problems =
        [
            .. Temperatures.Where(name => mapping.Fixed.ContainsKey(name) && mapping.FixedCelsius(name) is null)
                .Select(name => $"fixed.{name}: a temperature in °{mapping.TemperatureUnit} (temperatureUnit), of {InspectionCelsius.Range}, is allowed: is the unit right?"),
        ];
        return problems.Length > 0 ? (null, problems) : (mapping, []);
    }

    private static TimeForm Time(StatedTime? stated, List<string> problems)
    {
        if (stated is null)
        {
            return new TimeForm();
        }

        TimeZoneInfo? zone = null;
        if (stated.Order is not (null or "dmy" or "mdy" or "ymd"))
        {
            problems.Add("time.order: dmy, mdy or ymd is allowed; leave it out for RFC 3339");
        }

        if (stated.RepeatedHour is not (null or "first" or "second"))
        {
            problems.Add("time.repeatedHour: first or second is allowed; leave it out to refuse such a time");
        }

        if (stated.Zone is not null ? !TimeZoneInfo.TryFindSystemTimeZoneById(stated.Zone, out zone) : stated.Order is not null)
        {
            problems.Add("time.zone: an IANA time zone such as Europe/Vienna is needed where times have no offset");
        }

        return new TimeForm { Order = stated.Order, Zone = zone, RepeatedHour = stated.RepeatedHour };
    }

    private static DeviceMapping Mapping(Stated stated, TimeForm time) => new()
    {
        Device = stated.Device!,
        MicrometresPerUnit = Units[stated.Unit!],
        UnitName = stated.Unit!,
        Columns = stated.Columns,
        Fixed = stated.Fixed,
        Features = stated.Features,
        HeaderLine = stated.HeaderLine,
        FirstRow = stated.FirstRow ?? stated.HeaderLine + 1,
        Separator = stated.Separator![0],
        Decimal = stated.Decimal![0],
        Time = time,
        PositionIsRadial = stated.Position == "radial",
        SignTurned = stated.Sign == "nominalMinusMeasured",
        Compensation = stated.Compensation is { } word ? CompensationWords.Read(word) : null,
        ScaleAlpha = stated.ScaleAlpha,
        UMicrometres = stated.UUm,
        TemperatureUnit = stated.TemperatureUnit![0],
    };

    [GeneratedRegex("^[A-Za-z0-9_-][A-Za-z0-9._-]{0,59}$")]
    private static partial Regex DeviceId();

    private sealed record StatedTime(string? Order, string? Zone, string? RepeatedHour);

    private sealed record Stated
    {
        public string? Device { get; init; }

        public string? Unit { get; init; }

        public string? Decimal { get; init; } = ".";

        public string? Separator { get; init; } = ",";

        public int HeaderLine { get; init; } = 1;

        public int? FirstRow { get; init; }

        public StatedTime? Time { get; init; }

        public string? Position { get; init; } = "diametral";

        public string? Sign { get; init; } = "measuredMinusNominal";

        public string? Compensation { get; init; }

        public double? ScaleAlpha { get; init; }

        public double? UUm { get; init; }

        public string? TemperatureUnit { get; init; } = "C";

        public Dictionary<string, string> Columns { get; init; } = new(StringComparer.Ordinal);

        public Dictionary<string, string> Fixed { get; init; } = new(StringComparer.Ordinal);

        public Dictionary<string, string> Features { get; init; } = new(StringComparer.Ordinal);
    }
}
