using System.Security.Cryptography;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.Json;
using ClimateGuard.Plant;

namespace ClimateGuard.Edges.Replay;

/// <summary>Reads <c>events.jsonl</c>, plain or gzip, lines in any order.</summary>
internal static class EventsFile
{
    /// <summary>The most events of one file.</summary>
    public const int Most = 5_000_000;

    /// <summary>The events in order of their time; those of one moment in the order of the file, as a job may stand before its request.</summary>
    /// <exception cref="UnreadableFileException">A line is no event; the message names file, line and what is allowed.</exception>
    public static IReadOnlyList<CellEvent> Read(string path, IncrementalHash digest)
    {
        using var lines = TextLines.Open(path, digest);
        var events = new List<CellEvent>();
        while (lines.Next(out var line))
        {
            if (line.Trim(" \t"u8).IsEmpty)
            {
                continue;
            }

            var read = EventDecoder.DecodeLine(line.ToArray());
            if (read.Event is not { } happened || events.Count == Most)
            {
                throw new UnreadableFileException(events.Count == Most
                    ? $"{path}:{lines.Number}: more than {Most} events; split the file."
                    : $"{path}:{lines.Number}: {read.Reason}.");
            }

            events.Add(happened);
        }

        return [.. events.OrderBy(happened => happened.Time)];
    }
}
