using System.Globalization;
using ClimateGuard.Edges.Sqlite;
using Microsoft.Extensions.Logging;

namespace ClimateGuard.Edges.Influx;

/// <summary>How the spool stands.</summary>
/// <param name="Batches">Records that wait.</param>
/// <param name="Bytes">Size on disk.</param>
/// <param name="Oldest">When the oldest that waits was spooled, or null.</param>
internal readonly record struct SpoolState(long Batches, long Bytes, DateTimeOffset? Oldest);

/// <summary>What is taken from the front of the spool; it stays there until it is done with.</summary>
/// <param name="Payloads">The records, oldest first.</param>
/// <param name="Segment">The file they stand in.</param>
/// <param name="Next">Where the next one begins.</param>
internal sealed record SpoolTake(IReadOnlyList<byte[]> Payloads, SpoolSegment Segment, long Next);

/// <summary>An append-only queue of batches on disk, bounded, taken in order.</summary>
/// <remarks>
/// Several files, so that space comes back as they are done with. Each process appends to files of its own: after a change of the worker the
/// next one drains what the one before left. How far the front file is drained is noted; a note that is lost only means that some of it is
/// offered again. Safe across threads.
/// </remarks>
internal sealed class Spool : IDisposable
{
    private const long UsualSegmentBytes = 8 << 20;
    private const int TakeBytes = 256 << 10;

    private readonly Lock sync = new();
    private readonly string folder;
    private readonly long limit;
    private readonly ILogger log;
    private readonly LinkedList<SpoolSegment> segments = new();
    private readonly SpoolPosition note;
    private SpoolSegment? active;
    private long position = SpoolFormat.FileMark.Length;
    private long highest;
    private long batches;
    private DateTimeOffset? oldest;

    private Spool(string folder, long limit, ILogger log) =>
        (this.folder, this.limit, this.log, note) = (folder, limit, log, new SpoolPosition(folder));

    public bool IsEmpty
    {
        get
        {
            lock (sync)
            {
                return segments.Count == 0;
            }
        }
    }

    public SpoolState State
    {
        get
        {
            lock (sync)
            {
                return new SpoolState(batches, segments.Sum(segment => segment.Length), segments.Count == 0 ? null : oldest);
            }
        }
    }

    private long SegmentBytes => Math.Min(UsualSegmentBytes, limit / 8);

    /// <summary>Opens the spool and counts what waits in it.</summary>
    /// <param name="folder">Its folder.</param>
    /// <param name="limit">The most bytes on disk.</param>
    /// <param name="log">Told of what cannot be read.</param>
    /// <exception cref="StoreUnavailableException">The folder cannot be used.</exception>
    public static Spool Open(string folder, long limit, ILogger log)
    {
        var spool = new Spool(folder, limit, log);
        try
        {
            Directory.CreateDirectory(folder);
            spool.FindSegments();
            return spool;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw SqliteFault.Explain(fault, folder, "What waits there was not touched.");
        }
    }

    /// <summary>Adds a record, if there is room; on return it is on disk.</summary>
    /// <exception cref="StoreUnavailableException">The disk did not take it; nothing of it counts.</exception>
    public bool TryAppend(ReadOnlySpan<byte> payload, DateTimeOffset now)
    {
        lock (sync)
        {
            var size = SpoolFormat.HeaderBytes + payload.Length;
            if (segments.Count > 0 && segments.Sum(segment => segment.Length) + size > limit)
            {
                return false;
            }

            try
            {
                if (active is null || active.Length > SegmentBytes)
                {
                    Begin();
                }

                active!.Append(payload);
            }
            catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
            {
                throw new StoreUnavailableException(
                    $"InfluxDB is down, and the spool in {folder} cannot be written: {fault.Message.TrimEnd('.')}. Free some space there. "
                    + "Messages not yet acknowledged stay with the broker and come again.", fault);
            }

            batches++;
            oldest ??= now;
            return true;
        }
    }

    /// <summary>The oldest records, or null when nothing waits.</summary>
    public SpoolTake? Take()
    {
        lock (sync)
        {
            while (segments.First?.Value is { } segment)
            {
                if (TakeFrom(segment) is { } take)
                {
                    oldest = SpoolPayload.SpooledAt(take.Payloads[0]);
                    return take;
                }

                position = segment.Length;
                Finish(segment);
            }

            batches = 0;
            return null;
        }
    }

    /// <summary>What was taken is in the store.</summary>
    public void Done(SpoolTake take)
    {
        lock (sync)
        {
            batches = Math.Max(0, batches - take.Payloads.Count);
            position = take.Next;
            if (position >= take.Segment.Length)
            {
                Finish(take.Segment);
            }
            else
            {
                note.Write(take.Segment.Number, position);
            }
        }
    }

    public void Dispose()
    {
        lock (sync)
        {
            active?.Close();
            active = null;
        }
    }

    private void FindSegments()
    {
        foreach (var path in Directory.GetFiles(folder, "*.spool").Order(StringComparer.Ordinal))
        {
            if (long.TryParse(Path.GetFileNameWithoutExtension(path), NumberStyles.None, CultureInfo.InvariantCulture, out var number))
            {
                segments.AddLast(SpoolSegment.Found(number, path));
                highest = Math.Max(highest, number);
            }
        }

        if (segments.First?.Value is { } front)
        {
            position = Math.Min(front.Length, note.Read(front.Number) ?? SpoolFormat.FileMark.Length);
            foreach (var segment in segments)
            {
                batches += Count(segment, segment == front ? position : SpoolFormat.FileMark.Length);
            }
        }
    }

    private long Count(SpoolSegment segment, long from)
    {
        var bytes = segment.Read(from, segment.Length).AsSpan();
        var count = 0L;
        while (SpoolFormat.Look(bytes, out var payload) == SpoolFind.Record)
        {
            count++;
            oldest ??= SpoolPayload.SpooledAt(payload);
            bytes = bytes[(SpoolFormat.HeaderBytes + payload.Length)..];
        }

        return count;
    }

    private void Begin()
    {
        active?.Close();
        active = null;
        while (active is null)
        {
            highest++;
            var path = Path.Combine(folder, string.Create(CultureInfo.InvariantCulture, $"{highest:D12}.spool"));
            // Another worker that was thought dead may have made it.
            active = File.Exists(path) ? null : SpoolSegment.Create(highest, path);
        }

        if (segments.Count == 0)
        {
            position = SpoolFormat.FileMark.Length;
            oldest = null;
        }

        segments.AddLast(active);
    }

    private SpoolTake? TakeFrom(SpoolSegment segment)
    {
        if (!File.Exists(segment.Path))
        {
            log.LogWarning("The spool file {File} is gone: another worker has drained it.", segment.Path);
            return null;
        }

        while (position < segment.Length)
        {
            var bytes = segment.Read(position, TakeBytes + SpoolFormat.HeaderBytes + SpoolFormat.MostPayloadBytes);
            var payloads = new List<byte[]>();
            var at = 0;
            while (at < TakeBytes && SpoolFormat.Look(bytes.AsSpan(at), out var payload) == SpoolFind.Record)
            {
                payloads.Add(payload.ToArray());
                at += SpoolFormat.HeaderBytes + payload.Length;
            }

            if (payloads.Count > 0)
            {
                return new SpoolTake(payloads, segment, position + at);
            }

            position += Skip(segment, bytes);
        }

        return null;
    }

    /// <summary>How much that is no record stands here; says so in the log.</summary>
    private long Skip(SpoolSegment segment, byte[] window)
    {
        var find = SpoolFormat.Look(window, out _);
        var rest = segment.Read(position, segment.Length);
        var skipped = SpoolFormat.NextRecord(rest);
        if (find == SpoolFind.Torn && skipped == rest.Length)
        {
            log.LogWarning(
                "The last {Bytes} bytes of the spool file {File} are a write that was cut off when the worker ended. What stood there was not acknowledged and comes again.",
                skipped, segment.Path);
            return skipped;
        }

        segment.Damaged = true;
        log.LogError(
            "{Bytes} bytes from byte {Position} of the spool file {File} are damaged and are left out; readings are missing in InfluxDB. The file is kept beside it as .damaged: look at the disk.",
            skipped, position, segment.Path);
        return skipped;
    }

    private void Finish(SpoolSegment segment)
    {
        if (segment == active)
        {
            active.Close();
            active = null;
        }

        segments.Remove(segment);
        position = SpoolFormat.FileMark.Length;
        if (segment.Damaged && File.Exists(segment.Path))
        {
            File.Move(segment.Path, Path.ChangeExtension(segment.Path, ".damaged"), overwrite: true);
        }
        else
        {
            File.Delete(segment.Path);
        }
    }
}
