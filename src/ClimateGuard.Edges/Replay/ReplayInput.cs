using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.Json;
using ClimateGuard.Plant;

namespace ClimateGuard.Edges.Replay;

/// <summary>Readings and events of a replay, in order, with the hash of everything that was asked.</summary>
internal sealed class ReplayInput : IDisposable
{
    // Beyond this a stamp of years ago among the others is likelier than such a record.
    private static readonly TimeSpan Longest = TimeSpan.FromDays(3 * 366);

    private readonly ReadingSorter sorter;

    private ReplayInput(ReadingSorter sorter) => this.sorter = sorter;

    public required IReadOnlyList<CellEvent> Events { get; init; }

    public required long WithoutValue { get; init; }

    /// <summary>Hash of the file of events alone, in hexadecimal digits; of nothing when there is none.</summary>
    public required string EventsSha256 { get; init; }

    /// <summary>Hash of files, plant file, options and format of the lines.</summary>
    public required string Hash { get; init; }

    public long Count => sorter.Count;

    /// <summary>The first and the last moment, or null when there is nothing.</summary>
    public (DateTimeOffset From, DateTimeOffset To)? Span { get; private set; }

    /// <summary>The whole minute in which it begins.</summary>
    public DateTimeOffset Start
    {
        get
        {
            var first = Span?.From ?? DateTimeOffset.UnixEpoch;
            return new DateTimeOffset(first.UtcTicks - (first.UtcTicks % TimeSpan.TicksPerMinute), TimeSpan.Zero);
        }
    }

    public MergedRuns InOrder() => sorter.InOrder();

    /// <summary>Reads both files.</summary>
    /// <exception cref="UnreadableFileException">A file or a row cannot be used.</exception>
    public static async Task<ReplayInput> ReadAsync(ReplayQuestion question, CancellationToken cancellation)
    {
        var sorter = new ReadingSorter(question.MostInMemory);
        try
        {
            using var digest = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
            var events = question.Events is null ? [] : EventsFile.Read(question.Events, digest);
            var eventsSha256 = Convert.ToHexStringLower(digest.GetCurrentHash());
            using var input = await ReadingsInput.OpenAsync(question.Readings, question.Cell, cancellation);
            await SortAsync(input, sorter, question, cancellation);
            digest.AppendData(Encoding.UTF8.GetBytes(string.Create(
                CultureInfo.InvariantCulture, $"1|{input.Place.Sha256}|{question.ConfigVersion}|{question.Every?.Ticks}|{typeof(ReplayInput).Assembly.GetName().Version}")));
            var read = new ReplayInput(sorter)
            {
                Events = events, EventsSha256 = eventsSha256, WithoutValue = input.WithoutValue, Hash = Convert.ToHexStringLower(digest.GetHashAndReset()),
            };
            read.Span = Between(sorter, events);
            return read;
        }
        catch
        {
            sorter.Dispose();
            throw;
        }
    }

    public void Dispose() => sorter.Dispose();

    private static async Task SortAsync(ReadingsInput input, ReadingSorter sorter, ReplayQuestion question, CancellationToken cancellation)
    {
        var batch = new InputBatch(10_000);
        while (await input.ReadAsync(batch, long.MaxValue, cancellation))
        {
            foreach (ref readonly var row in batch.Rows.Span)
            {
                sorter.Add(row);
            }

            if (batch.Problem is { } problem)
            {
                throw new UnreadableFileException(problem);
            }

            question.Progress("reading", input.Share, sorter.Count);
        }
    }

    private static (DateTimeOffset From, DateTimeOffset To)? Between(ReadingSorter sorter, IReadOnlyList<CellEvent> events)
    {
        if (sorter.Count == 0 && events.Count == 0)
        {
            return null;
        }

        var from = Least(sorter.Count > 0 ? DateTimeOffset.FromUnixTimeMilliseconds(sorter.First) : DateTimeOffset.MaxValue, events.Count > 0 ? events[0].Time : DateTimeOffset.MaxValue);
        var to = Greatest(sorter.Count > 0 ? DateTimeOffset.FromUnixTimeMilliseconds(sorter.Last) : DateTimeOffset.MinValue, events.Count > 0 ? events[^1].Time : DateTimeOffset.MinValue);
        return to - from <= Longest ? (from, to) : throw new UnreadableFileException(
            $"the files reach from {Rfc3339.Text(from)} to {Rfc3339.Text(to)}; at most three years are replayed at once: is one of the times wrong? Else split the files.");
    }

    private static DateTimeOffset Least(DateTimeOffset a, DateTimeOffset b) => a < b ? a : b;

    private static DateTimeOffset Greatest(DateTimeOffset a, DateTimeOffset b) => a > b ? a : b;
}
