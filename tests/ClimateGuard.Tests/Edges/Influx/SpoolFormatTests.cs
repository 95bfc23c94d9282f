using ClimateGuard.Edges.Influx;
using ClimateGuard.Watch;
using CsCheck;

namespace ClimateGuard.Tests.Edges.Influx;

public sealed class SpoolFormatTests
{
    private static readonly Gen<byte[][]> Payloads = Gen.Byte.Array[0, 60].Array[0, 12];

    [Fact]
    public void However_it_is_cut_off_what_is_left_is_a_beginning_of_the_records() =>
        Gen.Select(Payloads, Gen.Double[0, 1]).Sample((payloads, share) =>
        {
            var file = File(payloads);
            var left = file[..(int)(file.Length * share)];
            var (records, find) = Records(left);

            Assert.Equal(payloads.Take(records.Count), records);
            Assert.Equal(left.Length == File([.. records]).Length ? SpoolFind.End : SpoolFind.Torn, find);
        });

    [Fact]
    public void A_flipped_bit_costs_its_own_record_and_no_other() =>
        Gen.Select(Gen.Byte.Array[1, 60].Array[1, 12], Gen.Int[0, int.MaxValue], Gen.Int[0, 7]).Sample((payloads, place, bit) =>
        {
            var file = File(payloads);
            file[place % file.Length] ^= (byte)(1 << bit);
            var found = new List<byte[]>();
            for (var rest = file.AsSpan(); !rest.IsEmpty;)
            {
                var (records, find) = Records(rest.ToArray());
                found.AddRange(records);
                rest = rest[File([.. records]).Length..];
                rest = find == SpoolFind.End ? [] : rest[SpoolFormat.NextRecord(rest)..];
            }

            Assert.Equal(payloads.Length - 1, found.Count);
            Assert.Subset(payloads.Select(Convert.ToHexString).ToHashSet(), found.Select(Convert.ToHexString).ToHashSet());
        });

    [Fact]
    public void Nothing_foreign_is_taken_for_a_record()
    {
        Gen.Byte.Array[1, 200].Sample(bytes => SpoolFormat.Look(bytes, out _) != SpoolFind.Record);
        Assert.Equal(SpoolFind.End, SpoolFormat.Look([], out _));
    }

    [Fact]
    public void Readings_and_messages_come_back_as_they_were_bit_for_bit()
    {
        var reading = Gen.Select(Gen.String, Gen.Long, Gen.Double, Gen.Double, Gen.Enum<Trust>(), Gen.Enum<TrustReason>())
            .Select((sensor, time, raw, value, trust, reason) => new KeptReading(sensor, time, raw, value, trust, reason));
        var message = Gen.Select(Gen.Long, Gen.String, Gen.String, Gen.String)
            .Select((time, topic, reason, payload) => new KeptMessage(time, new UnreadableMessage(topic, reason, payload)));
        Gen.Select(reading.Array[0, 40], message.Array[0, 5], Gen.Int[0, 2_000_000_000]).Sample((readings, messages, second) =>
        {
            var at = DateTimeOffset.FromUnixTimeSeconds(second);
            var payload = SpoolPayload.Of(at, readings, messages);
            var (gotReadings, gotMessages) = (new List<KeptReading>(), new List<KeptMessage>());
            SpoolPayload.Read(payload, gotReadings, gotMessages);

            Assert.Equal(at, SpoolPayload.SpooledAt(payload));
            Assert.Equal(readings.Select(Bits), gotReadings.Select(Bits));
            Assert.Equal(messages.Select(m => (m.Nanoseconds, Utf8(m.Message))), gotMessages.Select(m => (m.Nanoseconds, Utf8(m.Message))));
        });
    }

    [Fact]
    public void A_record_of_a_newer_release_is_refused_and_not_read_wrongly()
    {
        var payload = SpoolPayload.Of(DateTimeOffset.UnixEpoch, [], []);
        payload[0]++;
        Assert.Contains("Start the newer release", Assert.Throws<InvalidDataException>(() => SpoolPayload.Read(payload, [], [])).Message, StringComparison.Ordinal);
    }

    private static (string, long, long, long, Trust, TrustReason) Bits(KeptReading reading) => (
        Utf8(reading.Sensor), reading.Time, BitConverter.DoubleToInt64Bits(reading.Raw), BitConverter.DoubleToInt64Bits(reading.Value), reading.Trust, reading.Reason);

    // A lone surrogate is no text; it may come back as a replacement character.
    private static string Utf8(string text) => Convert.ToHexString(System.Text.Encoding.UTF8.GetBytes(text));

    private static (string, string, string) Utf8(UnreadableMessage message) => (Utf8(message.Topic), Utf8(message.Reason), Utf8(message.PayloadStart));

    private static (List<byte[]> Records, SpoolFind End) Records(byte[] bytes)
    {
        var records = new List<byte[]>();
        var at = 0;
        while (true)
        {
            var find = SpoolFormat.Look(bytes.AsSpan(at), out var payload);
            if (find != SpoolFind.Record)
            {
                return (records, find);
            }

            records.Add(payload.ToArray());
            at += SpoolFormat.HeaderBytes + payload.Length;
        }
    }

    private static byte[] File(byte[][] payloads)
    {
        using var file = new MemoryStream();
        var header = new byte[SpoolFormat.HeaderBytes];
        foreach (var payload in payloads)
        {
            SpoolFormat.WriteHeader(header, payload);
            file.Write(header);
            file.Write(payload);
        }

        return file.ToArray();
    }
}
