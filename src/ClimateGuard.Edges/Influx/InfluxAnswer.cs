using System.Text.Json;

namespace ClimateGuard.Edges.Influx;

/// <summary>What InfluxDB answered to one or more statements of InfluxQL. Dispose it once.</summary>
internal sealed class InfluxAnswer(JsonDocument document) : IDisposable
{
    /// <summary>The series of all statements, in order.</summary>
    public IEnumerable<Table> Tables => Results
        .Where(result => result.TryGetProperty("series", out _))
        .SelectMany(result => result.GetProperty("series").EnumerateArray().Select(series => new Table(series)));

    /// <summary>The first trouble that InfluxDB names, or null.</summary>
    public string? Error => document.RootElement.TryGetProperty("error", out var whole)
        ? whole.GetString()
        : Results.Where(result => result.TryGetProperty("error", out _)).Select(result => result.GetProperty("error").GetString()).FirstOrDefault();

    /// <summary>Whether InfluxDB left rows out for a limit of its own.</summary>
    public bool IsPartial => Results.Any(result => result.TryGetProperty("partial", out var partial) && partial.GetBoolean());

    private IEnumerable<JsonElement> Results =>
        document.RootElement.TryGetProperty("results", out var results) ? results.EnumerateArray() : [];

    public void Dispose() => document.Dispose();

    /// <summary>One series.</summary>
    internal readonly record struct Table(JsonElement Series)
    {
        public IEnumerable<string?> Columns => Series.GetProperty("columns").EnumerateArray().Select(column => column.GetString());

        public IEnumerable<JsonElement> Rows => Series.TryGetProperty("values", out var values) ? values.EnumerateArray() : [];

        /// <summary>The value of a tag that was grouped by.</summary>
        public string Tag(string name) => Series.GetProperty("tags").GetProperty(name).GetString()!;
    }
}
