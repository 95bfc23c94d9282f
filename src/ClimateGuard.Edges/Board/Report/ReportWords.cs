using System.Globalization;
using ClimateGuard.Evidence;

namespace ClimateGuard.Edges.Board;

/// <summary>Numbers and times as they stand in a report.</summary>
internal static class ReportWords
{
    public const string NotKnown = "not known";

    public static string Um(double? value) => Number(value, "0.0");

    public static string Number(double? value, string form) =>
        value is { } known && double.IsFinite(known) ? (Math.Round(known, 6) + 0.0).ToString(form, CultureInfo.InvariantCulture).Replace("-0.0", known > -0.05 && form == "0.0" ? "0.0" : "-0.0", StringComparison.Ordinal) : NotKnown;

    public static string Share(double? value) => value is { } known && double.IsFinite(known) ? known.ToString("P0", CultureInfo.InvariantCulture) : NotKnown;

    public static string PlusMinus(double? value, double? u) => $"{Um(value)} ± {Um(u)}";

    public static string PlusMinus(Estimate estimate, string form = "0.0") => $"{Number(estimate.Value, form)} ± {Number(estimate.StandardError, form)}";

    /// <summary>UTC, and the local time of the place with its offset.</summary>
    public static string Time(DateTimeOffset? time, TimeZoneInfo zone)
    {
        if (time is not { } known)
        {
            return NotKnown;
        }

        var local = TimeZoneInfo.ConvertTime(known, zone);
        return string.Create(CultureInfo.InvariantCulture, $"{known.UtcDateTime:yyyy-MM-dd HH:mm}Z ({local:HH:mm zzz})");
    }

    /// <summary>A probability of chance; a very small one is no zero.</summary>
    public static string P(double value) => value < 0.0001 ? "p < 0.0001" : string.Create(CultureInfo.InvariantCulture, $"p = {value:0.####}");

    public static string Component(PatternComponent component) => component switch
    {
        PatternComponent.Scale => "Scale",
        PatternComponent.Translation => "Translation",
        PatternComponent.Rotation => "Rotation",
        PatternComponent.ScaleGrowingWithOrder => "A scale that changes with the order of cutting",
        PatternComponent.TwoHalves => "A shift between two halves",
        _ => "Scatter",
    };

    public static string Yes(bool value) => value ? "yes" : "no";

    public static string Or(string? text, string otherwise = "not recorded") => string.IsNullOrEmpty(text) ? otherwise : text;
}
