using System.Text;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Influx;

/// <summary>What stands in a record of the spool: when it was spooled, readings, messages that could not be read.</summary>
/// <remarks>Reasons and sensors stand by name, so that the order of an enumeration and of the plant file may change while something waits.</remarks>
internal static class SpoolPayload
{
    /// <summary>The most rows of one record: far from <see cref="SpoolFormat.MostPayloadBytes"/>.</summary>
    public const int MostReadings = 4_000;

    /// <summary>The most messages of one record: their topics may have 64 KiB each.</summary>
    public const int MostMessages = 10;

    private const byte Version = 1;

    /// <summary>Makes a payload.</summary>
    public static byte[] Of(DateTimeOffset spooledAt, ReadOnlySpan<KeptReading> readings, ReadOnlySpan<KeptMessage> messages)
    {
        var names = new Dictionary<string, int>();
        foreach (ref readonly var reading in readings)
        {
            names.TryAdd(reading.Sensor, names.Count);
        }

        using var bytes = new MemoryStream(64 + (readings.Length * 30));
        using var writer = new BinaryWriter(bytes, Encoding.UTF8);
        writer.Write(Version);
        writer.Write(spooledAt.ToUnixTimeMilliseconds());
        WriteNames(writer, names.Keys);
        WriteNames(writer, Enum.GetNames<TrustReason>());
        writer.Write(readings.Length);
        foreach (ref readonly var reading in readings)
        {
            writer.Write((ushort)names[reading.Sensor]);
            writer.Write(reading.Time);
            writer.Write(reading.Raw);
            writer.Write(reading.Value);
            writer.Write((byte)reading.Trust);
            writer.Write((byte)reading.Reason);
        }

        writer.Write(messages.Length);
        foreach (ref readonly var kept in messages)
        {
            writer.Write(kept.Nanoseconds);
            writer.Write(kept.Message.Topic);
            writer.Write(kept.Message.Reason);
            writer.Write(kept.Message.PayloadStart);
        }

        return bytes.ToArray();
    }

    /// <summary>When a payload was spooled.</summary>
    public static DateTimeOffset SpooledAt(ReadOnlySpan<byte> payload) =>
        DateTimeOffset.FromUnixTimeMilliseconds(System.Buffers.Binary.BinaryPrimitives.ReadInt64LittleEndian(payload[1..]));

    /// <summary>Adds what stands in a payload.</summary>
    /// <exception cref="InvalidDataException">A newer release wrote it.</exception>
    public static void Read(byte[] payload, List<KeptReading> readings, List<KeptMessage> messages)
    {
        using var reader = new BinaryReader(new MemoryStream(payload), Encoding.UTF8);
        if (reader.ReadByte() is not Version and var found)
        {
            throw new InvalidDataException($"a record of shape {found}; this release knows shape {Version}. Start the newer release, which wrote it");
        }

        reader.ReadInt64();
        var sensors = ReadNames(reader);
        TrustReason[] reasons = [.. ReadNames(reader).Select(Enum.Parse<TrustReason>)];
        for (var left = reader.ReadInt32(); left > 0; left--)
        {
            readings.Add(new KeptReading(
                sensors[reader.ReadUInt16()], reader.ReadInt64(), reader.ReadDouble(), reader.ReadDouble(), (Trust)reader.ReadByte(), reasons[reader.ReadByte()]));
        }

        for (var left = reader.ReadInt32(); left > 0; left--)
        {
            messages.Add(new KeptMessage(reader.ReadInt64(), new UnreadableMessage(reader.ReadString(), reader.ReadString(), reader.ReadString())));
        }
    }

    private static void WriteNames(BinaryWriter writer, IReadOnlyCollection<string> names)
    {
        writer.Write((ushort)names.Count);
        foreach (var name in names)
        {
            writer.Write(name);
        }
    }

    private static string[] ReadNames(BinaryReader reader)
    {
        var names = new string[reader.ReadUInt16()];
        for (var n = 0; n < names.Length; n++)
        {
            names[n] = string.Intern(reader.ReadString());
        }

        return names;
    }
}
