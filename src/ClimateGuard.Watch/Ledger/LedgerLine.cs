using System.Text;
using System.Text.Json;

namespace ClimateGuard.Watch;

/// <summary>One line for the record of what was decided.</summary>
/// <param name="Time">When it was decided or happened. Kept in UTC, to the tick of 100 ns.</param>
/// <param name="Kind">What it is, one of <see cref="LedgerKinds"/>.</param>
/// <param name="Machine">Id of the machine, or null; never empty.</param>
/// <param name="Json">The whole content as one JSON object on one line.</param>
public sealed record LedgerLine(DateTimeOffset Time, string Kind, string? Machine, string Json)
{
    /// <summary>What is wrong with this line, so that no store takes it; null when it is good.</summary>
    public string? Problem()
    {
        if (!LedgerKinds.All.Contains(Kind))
        {
            return $"kind \"{Kind}\": one of {string.Join(", ", LedgerKinds.All)} is allowed";
        }

        if (Machine is not null && (Machine.Length == 0 || Machine.Any(char.IsControl)))
        {
            return "the machine is empty or holds a control character: an id, or null, is allowed";
        }

        return IsOneObjectOnOneLine(Json) ? null : "the content is not one JSON object on one line";
    }

    /// <summary>Refuses lines that no store may take.</summary>
    /// <param name="lines">The lines of one batch.</param>
    /// <exception cref="ArgumentException">A line is not allowed; the message names its place in the batch and what is allowed.</exception>
    public static void RefuseBad(IReadOnlyList<LedgerLine> lines)
    {
        ArgumentNullException.ThrowIfNull(lines);
        for (var i = 0; i < lines.Count; i++)
        {
            if (lines[i].Problem() is { } problem)
            {
                throw new ArgumentException($"Ledger line {i + 1} of {lines.Count}: {problem}. None of the batch was written.", nameof(lines));
            }
        }
    }

    /// <summary>Whether a text is one JSON object without a line break.</summary>
    /// <param name="json">The text.</param>
    public static bool IsOneObjectOnOneLine(string json)
    {
        if (string.IsNullOrEmpty(json) || json[0] != '{' || json[^1] != '}' || json.AsSpan().ContainsAny('\n', '\r'))
        {
            return false;
        }

        try
        {
            var reader = new Utf8JsonReader(Encoding.UTF8.GetBytes(json));
            while (reader.Read())
            {
            }

            return true;
        }
        catch (JsonException)
        {
            return false;
        }
    }
}
