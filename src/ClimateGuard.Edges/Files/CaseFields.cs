using System.Globalization;
using System.Text.Json;

namespace ClimateGuard.Edges.Files;

/// <summary>The fields of a case, with every problem found in them.</summary>
internal sealed class CaseFields
{
    private readonly string place;
    private readonly JsonElement? element;

    public CaseFields(string name, JsonElement root)
        : this(name + ": ", root, [])
    {
        if (!IsObject)
        {
            Problems.Add($"{name}: a case is one JSON object; climateguard evaluate --help shows one.");
        }
    }

    private CaseFields(string place, JsonElement? element, List<string> problems)
    {
        this.place = place;
        this.element = element;
        Problems = problems;
    }

    public List<string> Problems { get; }

    public bool IsObject => element is { ValueKind: JsonValueKind.Object };

    public void Add(string field, string problem) => Problems.Add($"{place}{field}: {problem}.");

    public JsonElement? Element(string field) => IsObject && element!.Value.TryGetProperty(field, out var value) ? value : null;

    public CaseFields Object(string field, bool required)
    {
        var value = Element(field);
        if (value is { ValueKind: JsonValueKind.Object })
        {
            return new CaseFields($"{place}{field}.", value, Problems);
        }

        if (value is not null and not { ValueKind: JsonValueKind.Null })
        {
            Add(field, "an object is allowed");
        }
        else if (required)
        {
            Add(field, "is missing");
        }

        return new CaseFields($"{place}{field}.", null, Problems);
    }

    public string? Text(string field)
    {
        if (Element(field) is { ValueKind: JsonValueKind.String } value && value.GetString() is { Length: > 0 and <= 200 } text)
        {
            return text;
        }

        Add(field, "a text of 1 to 200 characters is needed");
        return null;
    }

    public double Required(string field, double low, double high)
    {
        if (element is not null && Element(field) is null)
        {
            Add(field, FormattableString.Invariant($"is missing; a number from {low} to {high} is needed"));
        }

        return Number(field, 0, low, high)!.Value;
    }

    public double? Number(string field, double? otherwise, double low, double high)
    {
        if (Element(field) is not { } value || value.ValueKind == JsonValueKind.Null)
        {
            return otherwise;
        }

        if (value.ValueKind == JsonValueKind.Number && value.TryGetDouble(out var number) && number >= low && number <= high)
        {
            return number;
        }

        Add(field, string.Create(CultureInfo.InvariantCulture, $"found {Shortened(value)}; a number from {low} to {high} is allowed"));
        return otherwise ?? low;
    }

    private static string Shortened(JsonElement value)
    {
        var text = value.GetRawText();
        return text.Length <= 40 ? text : text[..40] + "…";
    }
}
