namespace ClimateGuard.Worker.Api;

/// <summary>Names of kinds as the plant file writes them.</summary>
internal static class JsonWord
{
    /// <summary><c>RelativeHumidity</c> becomes <c>relativeHumidity</c>.</summary>
    public static string Of(string name) => char.ToLowerInvariant(name[0]) + name[1..];
}
