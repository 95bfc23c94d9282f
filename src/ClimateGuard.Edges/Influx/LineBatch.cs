using System.Globalization;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Influx;

/// <summary>Lines of the line protocol in one buffer that is used again, and where each of them ends.</summary>
/// <remarks>
/// The schema, times in ns since 1970:
/// <c>reading,cell=,sensor= value=[,raw=][,reason=""]</c> at the whole millisecond of the event time; <c>raw</c> where it differs;
/// <c>quarantine,cell=,sensor=,reason= raw=</c>, below the millisecond a number made of the raw value, so that two values set aside at one
/// moment are two points and the same value again is the same point;
/// <c>unreadable,cell= topic="",reason="",payload=""</c> at the time of arrival.
/// Not safe across threads.
/// </remarks>
internal sealed class LineBatch
{
    public const long NanosecondsInMillisecond = 1_000_000;

    private readonly string cell;
    private readonly List<int> ends = [];
    private readonly Dictionary<string, string> prefixes = [];
    private char[] buffer = new char[1 << 16];
    private int length;
    private string? lastSensor;
    private string lastPrefix = "";

    /// <summary>Begins for a cell.</summary>
    /// <param name="cell">Id of the cell.</param>
    public LineBatch(string cell) => this.cell = Tag(cell);

    public int Count => ends.Count;

    public void Clear()
    {
        length = 0;
        ends.Clear();
    }

    /// <summary>The lines from one to before another, as they go over the wire.</summary>
    public string Text(int from, int to)
    {
        var begin = from == 0 ? 0 : ends[from - 1];
        return new string(buffer, begin, ends[to - 1] - begin);
    }

    /// <summary>A reading that is used.</summary>
    public void AddReading(in KeptReading reading)
    {
        if (!ReferenceEquals(lastSensor, reading.Sensor))
        {
            lastSensor = reading.Sensor;
            lastPrefix = Prefix(reading.Sensor);
        }

        Put(lastPrefix);
        Put(reading.Value);
        if (reading.Raw != reading.Value || reading.Trust != Trust.Accepted)
        {
            Put(",raw=");
            Put(reading.Raw);
            if (reading.Reason != TrustReason.None)
            {
                Put(",reason=\"");
                Put(reading.Reason.ToString());
                Put("\"");
            }
        }

        End(reading.Time * NanosecondsInMillisecond);
    }

    /// <summary>A reading that is set aside.</summary>
    public void AddSetAside(in KeptReading reading, TrustReason reason)
    {
        Put($"quarantine,cell={cell},sensor={Tag(reading.Sensor)},reason={reason} raw=");
        Put(reading.Raw);
        End((reading.Time * NanosecondsInMillisecond) + BelowMillisecond(reading.Raw));
    }

    /// <summary>A message that could not be read.</summary>
    public void AddMessage(in KeptMessage kept)
    {
        var (topic, reason, payload) = kept.Message;
        Put($"unreadable,cell={cell} topic={Field(topic)},reason={Field(reason)},payload={Field(payload)}");
        End(kept.Nanoseconds);
    }

    /// <summary>Whether a name can stand in a tag and come back as it was: the protocol has no escape for a backslash or a line break.</summary>
    internal static bool CanStand(string name) => name.Length > 0 && !name.Any(c => c == '\\' || char.IsControl(c));

    internal static string Tag(string value) => CanStand(value)
        ? value.Replace(",", "\\,", StringComparison.Ordinal).Replace("=", "\\=", StringComparison.Ordinal).Replace(" ", "\\ ", StringComparison.Ordinal)
        : throw new ArgumentException($"The name \"{value}\" cannot be kept in InfluxDB: a name must not be empty or hold a backslash or control characters.");

    // A line break inside a text is allowed by the protocol, and not worth the trust: it becomes a blank.
    internal static string Field(string value) =>
        $"\"{string.Concat(value.Select(c => char.IsControl(c) ? ' ' : c)).Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal)}\"";

    /// <summary>A number in [0, 999 999] from the bits of a value; two values share one in one of a million cases.</summary>
    internal static long BelowMillisecond(double raw)
    {
        // Minus zero is the same reading as zero.
        var mixed = (ulong)BitConverter.DoubleToInt64Bits(raw == 0 ? 0 : raw) * 0x9E37_79B9_7F4A_7C15UL;
        return (long)Math.BigMul(mixed ^ (mixed >> 32), NanosecondsInMillisecond, out _);
    }

    private string Prefix(string sensor)
    {
        if (!prefixes.TryGetValue(sensor, out var prefix))
        {
            prefix = $"reading,cell={cell},sensor={Tag(sensor)} value=";
            prefixes.Add(sensor, prefix);
        }

        return prefix;
    }

    private void Put(string text)
    {
        Reserve(text.Length);
        text.CopyTo(buffer.AsSpan(length));
        length += text.Length;
    }

    // The shortest text that reads back as the same number.
    private void Put(double number)
    {
        Reserve(32);
        number.TryFormat(buffer.AsSpan(length), out var written, provider: CultureInfo.InvariantCulture);
        length += written;
    }

    private void End(long nanoseconds)
    {
        Reserve(32);
        buffer[length++] = ' ';
        nanoseconds.TryFormat(buffer.AsSpan(length), out var written, provider: CultureInfo.InvariantCulture);
        length += written;
        buffer[length++] = '\n';
        ends.Add(length);
    }

    private void Reserve(int more)
    {
        if (buffer.Length - length < more)
        {
            Array.Resize(ref buffer, Math.Max(buffer.Length * 2, length + more));
        }
    }
}
