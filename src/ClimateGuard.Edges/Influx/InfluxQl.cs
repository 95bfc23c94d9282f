using System.Globalization;
using System.Text;

namespace ClimateGuard.Edges.Influx;

/// <summary>The questions in InfluxQL. Names and texts go in quoted, so that no name can end its quotes.</summary>
/// <param name="cell">Id of the cell.</param>
internal sealed class InfluxQl(string cell)
{
    /// <summary>Accepted and corrected readings from the begin of a window: time, value, raw, reason.</summary>
    public string Readings(string sensor, long from, long to, int most) =>
        Invariant($"SELECT \"value\", \"raw\", \"reason\" FROM \"reading\" WHERE {Of(sensor)} AND time >= {from}ms AND time < {to}ms LIMIT {most}");

    /// <summary>The same for questions of several sensors at once: each series of the answer names its sensor.</summary>
    public string Held(string sensor, long from, long to, int most) => Invariant(
        $"SELECT \"value\", \"raw\", \"reason\" FROM \"reading\" WHERE {Of(sensor)} AND time >= {from}ms AND time < {to}ms GROUP BY \"sensor\" LIMIT {most}");

    /// <summary>The first or the last accepted or corrected reading of a window: time, value.</summary>
    public string Outermost(string sensor, long from, long to, bool last) => Invariant(
        $"SELECT \"value\" FROM \"reading\" WHERE {Of(sensor)} AND time >= {from}ms AND time < {to}ms ORDER BY time {(last ? "DESC" : "ASC")} LIMIT 1");

    /// <summary>What was set aside in a window: time, raw, reason.</summary>
    public string SetAside(string sensor, long from, long to, int most) =>
        Invariant($"SELECT \"raw\", \"reason\" FROM \"quarantine\" WHERE {Of(sensor)} AND time >= {from}ms AND time < {to}ms LIMIT {most}");

    /// <summary>The newest time of each sensor: time, last.</summary>
    public string Newest() => $"SELECT last(\"value\") FROM \"reading\" WHERE {Cell} GROUP BY \"sensor\"";

    /// <summary>The names of all sensors that ever had a reading: key, value.</summary>
    public string Sensors() => $"SHOW TAG VALUES FROM \"reading\", \"quarantine\" WITH KEY = \"sensor\" WHERE {Cell}";

    /// <summary>The newest messages that could not be read, newest first: time, topic, reason, payload.</summary>
    public string Unreadable(int most) =>
        Invariant($"SELECT \"topic\", \"reason\", \"payload\" FROM \"unreadable\" WHERE {Cell} ORDER BY time DESC LIMIT {most}");

    /// <summary>A name of a field, tag or measurement in its quotes.</summary>
    internal static string Identifier(string name) => Quoted(name, '"');

    /// <summary>A text in its quotes.</summary>
    internal static string Text(string text) => Quoted(text, '\'');

    private string Cell => $"\"cell\" = {Text(cell)}";

    private string Of(string sensor) => $"{Cell} AND \"sensor\" = {Text(sensor)}";

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private static string Quoted(string text, char quote)
    {
        var quoted = new StringBuilder().Append(quote);
        foreach (var c in text)
        {
            if (c == '\n')
            {
                quoted.Append("\\n");
                continue;
            }

            if (c == '\\' || c == quote)
            {
                quoted.Append('\\');
            }

            quoted.Append(c);
        }

        return quoted.Append(quote).ToString();
    }
}
