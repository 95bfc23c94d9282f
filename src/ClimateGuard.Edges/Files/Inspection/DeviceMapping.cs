using System.Globalization;
using ClimateGuard.Evidence;

namespace ClimateGuard.Edges.Files;

/// <summary>How the files of one inspection device are to be read: saved once for the device, so that nothing is guessed each time.</summary>
/// <remarks>Immutable. Names of columns are <see cref="ColumnNames"/>.</remarks>
public sealed record DeviceMapping
{
    /// <summary>The columns of <c>results.csv</c>, with <c>actual</c> and <c>nominal</c> in place of <c>deviation</c> where a device reports those, and <c>unit</c> where rows differ.</summary>
    public static IReadOnlyList<string> ColumnNames { get; } =
    [
        "serial", "part", "operation", "machine", "feature", "hole", "time", "deviation", "dx", "dy", "u", "device", "compensation", "partC", "deviceC",
        "actual", "nominal", "unit",
    ];

    /// <summary>The form of <c>results.csv</c>: commas between columns, decimal points, µm, RFC 3339, positions diametral.</summary>
    public static DeviceMapping Own { get; } = new()
    {
        Device = "", MicrometresPerUnit = 1, UnitName = "µm", IsOwn = true,
        Columns = new Dictionary<string, string>(StringComparer.Ordinal)
        {
            ["serial"] = "serial", ["part"] = "part", ["operation"] = "operation", ["machine"] = "machine", ["feature"] = "feature", ["hole"] = "hole",
            ["time"] = "time", ["deviation"] = "deviationUm", ["dx"] = "dxUm", ["dy"] = "dyUm", ["u"] = "uUm", ["device"] = "device",
            ["compensation"] = "compensation", ["partC"] = "partC", ["deviceC"] = "deviceC",
        },
    };

    /// <summary>Id of the device; stands in where a file does not name one.</summary>
    public required string Device { get; init; }

    /// <summary>How many µm one unit of the file is.</summary>
    public required double MicrometresPerUnit { get; init; }

    /// <summary>The word of that unit, for messages.</summary>
    public required string UnitName { get; init; }

    /// <summary>From the name of a column here to its header in the file.</summary>
    public required IReadOnlyDictionary<string, string> Columns { get; init; }

    /// <summary>Values that the file does not state and that hold for all of it, such as part or operation.</summary>
    public IReadOnlyDictionary<string, string> Fixed { get; init; } = new Dictionary<string, string>(StringComparer.Ordinal);

    /// <summary>From the name of a feature in the file to that of the plant file, with <c>#</c> and its number for a hole.</summary>
    public IReadOnlyDictionary<string, string> Features { get; init; } = new Dictionary<string, string>(StringComparer.Ordinal);

    /// <summary>The line of the header, from 1; with several header lines the one that names the columns.</summary>
    public int HeaderLine { get; init; } = 1;

    /// <summary>The line of the first row, from 2.</summary>
    public int FirstRow { get; init; } = 2;

    /// <summary>Between columns.</summary>
    public char Separator { get; init; } = ',';

    /// <summary>Between whole and fraction: a point or a comma.</summary>
    public char Decimal { get; init; } = '.';

    /// <summary>How times are written.</summary>
    public TimeForm Time { get; init; } = new();

    /// <summary>A position is stated as the radial distance |d| and not as 2·|d|.</summary>
    public bool PositionIsRadial { get; init; }

    /// <summary>Deviations are stated as nominal minus measured.</summary>
    public bool SignTurned { get; init; }

    /// <summary>What the device does about temperature where the file does not say; null when nobody has said.</summary>
    public DeviceCompensation? Compensation { get; init; }

    /// <summary>Expansion of the device's scale, in µm/(m·K), or null.</summary>
    public double? ScaleAlpha { get; init; }

    /// <summary>Standard uncertainty of a value, in µm, where the file does not say; or null.</summary>
    public double? UMicrometres { get; init; }

    /// <summary>The scale of temperatures in the file: C, F or K.</summary>
    public char TemperatureUnit { get; init; } = 'C';

    internal bool IsOwn { get; private init; }

    /// <summary>A temperature in the unit of the mapping, in °C.</summary>
    internal double? Celsius(double? value) => TemperatureUnit switch
    {
        'F' => (value - 32) / 1.8,
        'K' => value - 273.15,
        _ => value,
    };

    /// <summary>A temperature that holds for all of the file, in °C; null when none is stated, or it is no number of -50 to 150 °C.</summary>
    /// <param name="name"><c>partC</c> or <c>deviceC</c>.</param>
    internal double? FixedCelsius(string name)
    {
        // As in the rows: with a decimal comma a point is none.
        var text = Fixed.GetValueOrDefault(name, "");
        return !(Decimal == ',' && text.Contains('.', StringComparison.Ordinal))
            && double.TryParse(text.Replace(Decimal, '.'), NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value)
            && Celsius(value) is { } celsius && InspectionCelsius.IsPossible(celsius) ? celsius : null;
    }
}

/// <summary>How times are written in a file.</summary>
public sealed record TimeForm
{
    /// <summary>The order of day, month and year: <c>dmy</c>, <c>mdy</c> or <c>ymd</c>; null for RFC 3339 with its offset.</summary>
    public string? Order { get; init; }

    /// <summary>The place whose clock it is; needed with an order.</summary>
    public TimeZoneInfo? Zone { get; init; }

    /// <summary>Which of the two hours is meant in the night when the clock is set back: <c>first</c> or <c>second</c>; null refuses such a time.</summary>
    public string? RepeatedHour { get; init; }
}
