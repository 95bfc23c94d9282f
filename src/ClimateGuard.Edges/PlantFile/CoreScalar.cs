using System.Globalization;
using System.Text.RegularExpressions;

namespace ClimateGuard.Edges.PlantFile;

/// <summary>What a plain scalar means by the core schema of YAML 1.2.2 (10.3.2): there, on, off, yes, no and 06:00 are text.</summary>
internal static partial class CoreScalar
{
    public enum Meaning
    {
        Nothing,
        Truth,
        Number,
        NotFinite,
        Text,
    }

    public static Meaning Of(FileScalar scalar)
    {
        if (!scalar.IsPlain)
        {
            return Meaning.Text;
        }

        return scalar.Text switch
        {
            "" or "~" or "null" or "Null" or "NULL" => Meaning.Nothing,
            "true" or "True" or "TRUE" or "false" or "False" or "FALSE" => Meaning.Truth,
            _ when NotFinite().IsMatch(scalar.Text) => Meaning.NotFinite,
            _ when TryNumber(scalar.Text, out var value) => double.IsFinite(value) ? Meaning.Number : Meaning.NotFinite,
            _ => Meaning.Text,
        };
    }

    public static bool Truth(FileScalar scalar) => scalar.Text is "true" or "True" or "TRUE";

    public static bool TryNumber(string text, out double value)
    {
        if (Number().IsMatch(text))
        {
            return double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out value);
        }

        var radix = text.StartsWith("0x", StringComparison.Ordinal) ? 16 : text.StartsWith("0o", StringComparison.Ordinal) ? 8 : 0;
        value = 0;
        if (radix == 0 || text.Length == 2)
        {
            return false;
        }

        foreach (var digit in text.AsSpan(2))
        {
            if (!char.IsAsciiHexDigit(digit) || Convert.ToInt32(digit.ToString(), 16) >= radix)
            {
                return false;
            }

            value = (value * radix) + Convert.ToInt32(digit.ToString(), 16);
        }

        return true;
    }

    [GeneratedRegex(@"^[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?\z", RegexOptions.CultureInvariant)]
    private static partial Regex Number();

    [GeneratedRegex(@"^([-+]?\.(inf|Inf|INF)|\.(nan|NaN|NAN))\z", RegexOptions.CultureInvariant)]
    private static partial Regex NotFinite();
}
