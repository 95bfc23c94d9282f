using System.Globalization;
using System.Text;
using System.Text.Json;
using ClimateGuard.Plant;

namespace ClimateGuard.Edges.Json;

/// <summary>Reads the fields of one JSON object and remembers the first that is wrong, as a sentence for its sender.</summary>
/// <remarks>Unknown fields are ignored; of a key given twice the last wins. A field of null counts as absent.</remarks>
internal sealed class JsonFields(JsonElement element, string what)
{
    /// <summary>The longest text that is taken.</summary>
    internal const int MostCharacters = 200;

    /// <summary>The first problem, or null.</summary>
    internal string? Problem { get; private set; }

    /// <summary>Whether the field is there and not null.</summary>
    internal bool Has(string name) => element.TryGetProperty(name, out var value) && value.ValueKind != JsonValueKind.Null;

    /// <summary>A needed text of 1 to 200 characters; a whole number is taken as its digits, as many controls send numbers.</summary>
    internal string Text(string name, bool mayBeEmpty = false)
    {
        if (!Has(name))
        {
            Refuse(name, "missing", TextAllowed(mayBeEmpty), "needed");
            return "";
        }

        var text = OptionalText(name) ?? "";
        if (text.Length == 0 && !mayBeEmpty)
        {
            Refuse(name, "empty", TextAllowed(mayBeEmpty));
        }

        return text;
    }

    /// <summary>An optional text of at most 200 characters.</summary>
    internal string? OptionalText(string name)
    {
        if (!Has(name))
        {
            return null;
        }

        var value = element.GetProperty(name);
        if (value.ValueKind == JsonValueKind.Number && value.TryGetInt64(out var whole))
        {
            return whole.ToString(CultureInfo.InvariantCulture);
        }

        if (value.ValueKind != JsonValueKind.String)
        {
            Refuse(name, Found(value), TextAllowed(true));
            return null;
        }

        var text = value.GetString()!;
        if (text.Length > MostCharacters)
        {
            Refuse(name, $"{text.Length} characters long", TextAllowed(true));
            return null;
        }

        if (text.Any(char.IsControl))
        {
            Refuse(name, Found(value), TextAllowed(true));
            return null;
        }

        return text;
    }

    /// <summary>A needed JSON number.</summary>
    internal double Number(string name, double low, double high, string unit)
    {
        if (!Has(name))
        {
            Refuse(name, "missing", NumberAllowed(low, high, unit), "needed");
            return low;
        }

        return OptionalNumber(name, low, high, unit) ?? low;
    }

    /// <summary>An optional JSON number; text is refused, as a decimal comma hides in it.</summary>
    internal double? OptionalNumber(string name, double low, double high, string unit)
    {
        if (!Has(name))
        {
            return null;
        }

        var value = element.GetProperty(name);
        if (value.ValueKind == JsonValueKind.Number && value.TryGetDouble(out var number) && number >= low && number <= high)
        {
            return number;
        }

        Refuse(name, Found(value), NumberAllowed(low, high, unit));
        return null;
    }

    /// <summary>An optional whole number.</summary>
    internal int? OptionalWhole(string name, int low, int high)
    {
        var number = OptionalNumber(name, low, high, "whole");
        if (number is { } value && value != Math.Floor(value))
        {
            Refuse(name, Found(element.GetProperty(name)), NumberAllowed(low, high, "whole"));
        }

        return (int?)number;
    }

    /// <summary>A needed true or false.</summary>
    internal bool Flag(string name)
    {
        if (Has(name) && element.GetProperty(name) is { ValueKind: JsonValueKind.True or JsonValueKind.False } value)
        {
            return value.GetBoolean();
        }

        Refuse(name, Has(name) ? Found(element.GetProperty(name)) : "missing", "true or false", Has(name) ? "allowed" : "needed");
        return false;
    }

    /// <summary>True or false; false when it is not there.</summary>
    internal bool OptionalFlag(string name) => Has(name) && Flag(name);

    /// <summary>A needed time.</summary>
    internal DateTimeOffset Time(string name)
    {
        if (!Has(name))
        {
            Refuse(name, "missing", Rfc3339.Allowed, "needed");
            return default;
        }

        return OptionalTime(name) ?? default;
    }

    /// <summary>An optional time, in UTC.</summary>
    internal DateTimeOffset? OptionalTime(string name)
    {
        if (!Has(name))
        {
            return null;
        }

        var value = element.GetProperty(name);
        var epoch = long.MinValue;
        if (value.ValueKind == JsonValueKind.Number && value.TryGetDouble(out var number)
            && number is >= Rfc3339.EarliestEpochMilliseconds and < Rfc3339.LatestEpochMilliseconds)
        {
            epoch = (long)number;
        }
        else if (value.ValueKind == JsonValueKind.String && Rfc3339.TryParse(Encoding.UTF8.GetBytes(value.GetString()!), out var time))
        {
            epoch = time.ToUnixTimeMilliseconds();
        }

        if (Rfc3339.IsPlausible(epoch))
        {
            return DateTimeOffset.FromUnixTimeMilliseconds(epoch);
        }

        Refuse(name, Found(value), Rfc3339.Allowed);
        return null;
    }

    /// <summary>A needed duration in minutes, or null when absent.</summary>
    internal TimeSpan? OptionalMinutes(string name) =>
        OptionalNumber(name, 0, 10_000, "minutes") is { } minutes ? TimeSpan.FromMinutes(minutes) : null;

    /// <summary>A needed axis.</summary>
    internal Axis SingleAxis(string name)
    {
        var text = Text(name);
        if (text.Length == 1 && TryAxis(text[0], out var axis))
        {
            return axis;
        }

        if (Problem is null)
        {
            Refuse(name, $"\"{Printable.Clean(text, 40)}\"", "\"x\", \"y\" or \"z\"");
        }

        return Axis.X;
    }

    /// <summary>Needed axes: <c>["x","z"]</c> or <c>"xz"</c>.</summary>
    internal IReadOnlyList<Axis> Axes(string name)
    {
        const string allowed = "[\"x\",\"y\",\"z\"] or some of them";
        if (!Has(name))
        {
            Refuse(name, "missing", allowed, "needed");
            return [];
        }

        var value = element.GetProperty(name);
        var letters = value.ValueKind switch
        {
            JsonValueKind.String => value.GetString()!.Select(letter => letter.ToString()),
            JsonValueKind.Array when value.EnumerateArray().All(item => item.ValueKind == JsonValueKind.String)
                => value.EnumerateArray().Select(item => item.GetString()!),
            _ => [],
        };
        var axes = new List<Axis>();
        foreach (var letter in letters)
        {
            if (letter.Length != 1 || !TryAxis(letter[0], out var axis))
            {
                Refuse(name, Found(value), allowed);
                return [];
            }

            if (!axes.Contains(axis))
            {
                axes.Add(axis);
            }
        }

        if (axes.Count == 0)
        {
            Refuse(name, Found(value), allowed);
        }

        return axes;
    }

    /// <summary>Remembers a problem unless there is one already.</summary>
    internal void Refuse(string name, string found, string allowed, string verb = "allowed") =>
        Problem ??= $"{what}: field \"{name}\" is {found}; {allowed} is {verb}";

    /// <summary>Remembers a problem in its own words unless there is one already.</summary>
    internal void Refuse(string sentence) => Problem ??= $"{what}: {sentence}";

    private static bool TryAxis(char letter, out Axis axis)
    {
        axis = letter switch { 'y' or 'Y' => Axis.Y, 'z' or 'Z' => Axis.Z, _ => Axis.X };
        return letter is 'x' or 'X' or 'y' or 'Y' or 'z' or 'Z';
    }

    private static string Found(JsonElement value) => Printable.Clean(value.GetRawText(), 40);

    private static string TextAllowed(bool mayBeEmpty) =>
        $"a text of {(mayBeEmpty ? "at most" : "1 to")} {MostCharacters} characters without control characters";

    private static string NumberAllowed(double low, double high, string unit) =>
        string.Create(CultureInfo.InvariantCulture, $"a number ({unit}) from {low} to {high}");
}
