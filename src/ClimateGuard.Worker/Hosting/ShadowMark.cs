using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Hosting;

/// <summary>The mark on what a shadow kept: what it would have said must never pass for what a machine was told.</summary>
internal static class ShadowMark
{
    private const string Mark = ",\"shadow\":true}";

    /// <summary>The JSON object with the mark at its end.</summary>
    public static string On(string json, bool shadow) => shadow ? string.Concat(json.AsSpan(0, json.Length - 1), Mark) : json;

    /// <summary>The line with the mark.</summary>
    public static LedgerLine On(LedgerLine line, bool shadow) => shadow ? line with { Json = On(line.Json, shadow) } : line;

    /// <summary>Whether it was kept by a shadow.</summary>
    public static bool IsOn(string json) => json.EndsWith(Mark, StringComparison.Ordinal);
}
