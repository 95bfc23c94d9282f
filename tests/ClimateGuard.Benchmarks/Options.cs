using System.Globalization;

namespace ClimateGuard.Benchmarks;

/// <summary>The options of a bench: a name, then its value.</summary>
internal static class Options
{
    public static string? Text(string[] args, string name) =>
        Array.IndexOf(args, name) is >= 0 and var at && at + 1 < args.Length ? args[at + 1] : null;

    public static double Number(string[] args, string name, double usual) =>
        Text(args, name) is { } text ? double.Parse(text, CultureInfo.InvariantCulture) : usual;

    public static int Whole(string[] args, string name, int usual) =>
        Text(args, name) is { } text ? int.Parse(text, CultureInfo.InvariantCulture) : usual;
}
