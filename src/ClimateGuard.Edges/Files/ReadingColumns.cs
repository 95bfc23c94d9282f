using System.Text;
using ClimateGuard.Edges.Json;

namespace ClimateGuard.Edges.Files;

/// <summary>Where the columns of a file of readings stand; further columns are passed over.</summary>
internal sealed class ReadingColumns
{
    /// <summary>How many columns can have a meaning.</summary>
    public const int Known = 7;

    public const int Time = 0;
    public const int Sensor = 1;
    public const int Value = 2;
    public const int Unit = 3;
    public const int Raw = 4;
    public const int Trust = 5;
    public const int Reason = 6;

    private const int Needed = 4;
    private const string Allowed = "a first line with the columns time,sensor,value,unit is needed (in any order, further ones are passed over)";
    private static readonly string[] Names = ["time", "sensor", "value", "unit", "raw", "trust", "reason"];

    private readonly int[] roles;

    private ReadingColumns(int[] roles, bool judged)
    {
        this.roles = roles;
        Judged = judged;
    }

    /// <summary>Each row carries the judgement it had in a store.</summary>
    public bool Judged { get; }

    /// <summary>How many columns a row has.</summary>
    public int Count => roles.Length;

    /// <summary>Reads the first line.</summary>
    /// <param name="place">File and line, for messages.</param>
    /// <param name="line">The line.</param>
    /// <exception cref="UnreadableFileException">A column is missing or stands there twice, or something else than a comma separates them.</exception>
    public static ReadingColumns Of(string place, ReadOnlySpan<byte> line)
    {
        string[] found = [.. Encoding.UTF8.GetString(line).Split(',').Select(name => name.Trim().Trim('"').Trim())];
        if (found.Length == 1 && found[0].AsSpan().IndexOfAny(';', '\t') >= 0)
        {
            throw new UnreadableFileException(
                $"{place}: the columns are separated by semicolons or tabs; commas between columns and a point in numbers are needed, such as "
                + "2026-01-10T08:00:00Z,air/a1,20.137,C.");
        }

        int[] roles = [.. found.Select(name => Array.IndexOf(Names, name.ToLowerInvariant()))];
        string[] absent = [.. Names.Take(Needed).Where((_, role) => !roles.Contains(role))];
        if (absent.Length > 0)
        {
            throw new UnreadableFileException(
                $"{place}: column {string.Join(", ", absent)} is missing; found \"{Printable.Start(line, 120)}\"; {Allowed}.");
        }

        if (roles.Where(role => role >= 0).GroupBy(role => role).FirstOrDefault(group => group.Count() > 1) is { } twice)
        {
            throw new UnreadableFileException($"{place}: column {Names[twice.Key]} stands there twice; {Allowed}.");
        }

        var judgements = roles.Count(role => role >= Needed);
        return judgements is 0 or Known - Needed ? new(roles, judgements > 0) : throw new UnreadableFileException(
            $"{place}: the columns raw, trust and reason belong together, as export writes them; rename the others or leave them out.");
    }

    /// <summary>Cuts a row into its fields.</summary>
    /// <param name="line">The row.</param>
    /// <param name="fields">Set to begin and end of each known field in the row, without quotes and blanks around it.</param>
    /// <returns>How many fields there are, or -1 when a quote is not closed.</returns>
    public int Split(ReadOnlySpan<byte> line, Span<Range> fields)
    {
        var at = 0;
        for (var column = 0; ; column++)
        {
            var (begin, end, next) = Field(line, at);
            if (next < 0)
            {
                return -1;
            }

            if (column < roles.Length && roles[column] >= 0)
            {
                fields[roles[column]] = Trimmed(line, begin, end);
            }

            if (next > line.Length)
            {
                return column + 1;
            }

            at = next;
        }
    }

    // Next is where the next field begins: beyond the length of the line when it was the last one, -1 for an open quote.
    private static (int Begin, int End, int Next) Field(ReadOnlySpan<byte> line, int at)
    {
        if (at >= line.Length || line[at] != '"')
        {
            var comma = line[at..].IndexOf((byte)',');
            return comma < 0 ? (at, line.Length, line.Length + 1) : (at, at + comma, at + comma + 1);
        }

        var end = at + 1;
        while (true)
        {
            var quote = line[end..].IndexOf((byte)'"');
            if (quote < 0)
            {
                return (0, 0, -1);
            }

            end += quote;
            if (end + 1 < line.Length && line[end + 1] == '"')
            {
                end += 2;
                continue;
            }

            return end + 1 == line.Length ? (at + 1, end, line.Length + 1) : line[end + 1] == ',' ? (at + 1, end, end + 2) : (0, 0, -1);
        }
    }

    private static Range Trimmed(ReadOnlySpan<byte> line, int begin, int end)
    {
        while (begin < end && line[begin] is (byte)' ' or (byte)'\t')
        {
            begin++;
        }

        while (end > begin && line[end - 1] is (byte)' ' or (byte)'\t')
        {
            end--;
        }

        return begin..end;
    }
}
