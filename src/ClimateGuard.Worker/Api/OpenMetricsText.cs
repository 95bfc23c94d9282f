using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace ClimateGuard.Worker.Api;

/// <summary>Writes figures in the text format of OpenMetrics 1.0.0: metadata before samples, families in one piece, <c># EOF</c> at the end.</summary>
public sealed partial class OpenMetricsText
{
    public const string ContentType = "application/openmetrics-text; version=1.0.0; charset=utf-8";

    private readonly StringBuilder text = new();
    private readonly HashSet<string> families = new(StringComparer.Ordinal);

    /// <summary>Something that only grows; its samples end in <c>_total</c>.</summary>
    /// <param name="name">Without <c>_total</c>; ends in the unit when there is one.</param>
    /// <param name="help">One sentence.</param>
    /// <param name="unit">The unit, such as <c>seconds</c>, or null.</param>
    /// <param name="samples">Label name and value, both null for none, and the figure, finite and not negative.</param>
    public OpenMetricsText Counter(string name, string help, string? unit, params IEnumerable<(string? Label, string? Of, double Value)> samples) =>
        Family(name, "counter", "_total", help, unit, samples.Select(sample =>
            sample.Value >= 0 && double.IsFinite(sample.Value) ? sample : throw new ArgumentOutOfRangeException(nameof(samples), sample.Value, $"{name} counts upwards")));

    /// <summary>Something that rises and falls.</summary>
    /// <param name="name">Ends in the unit when there is one.</param>
    /// <param name="help">One sentence.</param>
    /// <param name="unit">The unit, or null.</param>
    /// <param name="samples">Label name and value, both null for none, and the figure.</param>
    public OpenMetricsText Gauge(string name, string help, string? unit, params IEnumerable<(string? Label, string? Of, double Value)> samples) =>
        Family(name, "gauge", "", help, unit, samples);

    /// <summary>The whole text.</summary>
    public string End() => $"{text}# EOF\n";

    private OpenMetricsText Family(
        string name, string type, string suffix, string help, string? unit, IEnumerable<(string? Label, string? Of, double Value)> samples)
    {
        if (!Name().IsMatch(name) || (unit is not null && !name.EndsWith($"_{unit}", StringComparison.Ordinal)) || !families.Add(name))
        {
            throw new ArgumentException($"{name} is no name of a family, does not end in its unit, or was written before", nameof(name));
        }

        text.Append("# TYPE ").Append(name).Append(' ').Append(type).Append('\n');
        if (unit is not null)
        {
            text.Append("# UNIT ").Append(name).Append(' ').Append(unit).Append('\n');
        }

        text.Append("# HELP ").Append(name).Append(' ').Append(Escaped(help)).Append('\n');
        foreach (var (label, of, value) in samples)
        {
            text.Append(name).Append(suffix);
            if (label is not null)
            {
                text.Append('{').Append(label).Append("=\"").Append(Escaped(of ?? "")).Append("\"}");
            }

            text.Append(' ').Append(Number(value)).Append('\n');
        }

        return this;
    }

    private static string Escaped(string raw) => raw.Replace("\\", "\\\\", StringComparison.Ordinal)
        .Replace("\"", "\\\"", StringComparison.Ordinal).Replace("\r", "", StringComparison.Ordinal).Replace("\n", "\\n", StringComparison.Ordinal);

    private static string Number(double value) => double.IsNaN(value) ? "NaN"
        : double.IsPositiveInfinity(value) ? "+Inf"
        : double.IsNegativeInfinity(value) ? "-Inf"
        : value.ToString("R", CultureInfo.InvariantCulture);

    [GeneratedRegex("^[a-z][a-z0-9_]*$", RegexOptions.CultureInvariant)]
    private static partial Regex Name();
}
