using System.Globalization;

namespace ClimateGuard.Worker.Pages.Words;

/// <summary>How numbers are written on the pages: invariant, with a true minus sign, no more digits than they deserve.</summary>
public static class Numbers
{
    /// <summary>A width or a budget, in µm: one decimal at most, none where it is zero.</summary>
    public static string Micrometres(double micrometres) => Say(micrometres, "0.#");

    /// <summary>An effect beside its budget, in µm: whole from 10 on, unless the rounding would hide on which side of the budget it lies.</summary>
    public static string Effect(double micrometres, double budgetMicrometres)
    {
        var magnitude = Math.Abs(micrometres);
        return magnitude >= 10 && Math.Abs(Math.Round(magnitude) - budgetMicrometres) >= 1 ? Say(micrometres, "0") : Say(micrometres, "0.0");
    }

    /// <summary>The same with a plus sign where it is positive.</summary>
    public static string SignedEffect(double micrometres, double budgetMicrometres)
    {
        var text = Effect(micrometres, budgetMicrometres);
        return micrometres > 0 && text != "0.0" ? "+" + text : text;
    }

    /// <summary>A temperature in °C, with its unit; a dash where it is not known.</summary>
    public static string Celsius(double? celsius) =>
        celsius is { } value && double.IsFinite(value) ? Say(value, "0.0") + " °C" : "–";

    /// <summary>A plain number.</summary>
    public static string Plain(double value) => Say(value, "0.###");

    /// <summary>A number as a person types it, with a point or a comma; null when it is none.</summary>
    public static double? Typed(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var plain = text.Trim().Replace(',', '.').Replace('−', '-');
        return double.TryParse(plain, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number)
            && double.IsFinite(number) ? number : null;
    }

    private static string Say(double value, string format)
    {
        if (!double.IsFinite(value))
        {
            return "–";
        }

        var text = Math.Abs(value).ToString(format, CultureInfo.InvariantCulture);
        var isZero = text.AsSpan().IndexOfAnyInRange('1', '9') < 0;
        return value < 0 && !isZero ? "−" + text : text;
    }
}
