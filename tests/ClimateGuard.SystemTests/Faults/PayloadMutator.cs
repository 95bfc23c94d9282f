using System.Text;

namespace ClimateGuard.SystemTests.Faults;

/// <summary>Payloads as broken gateways send them: good ones with bytes turned, cut, doubled, swapped, or replaced by something much too large.</summary>
/// <param name="seed">The same seed gives the same payloads.</param>
public sealed class PayloadMutator(int seed)
{
    private static readonly byte[][] Good =
    [
        .. new[]
        {
            "20.137", "-3e1", "true", "open", """{"t":1768032000123,"v":20.137,"u":"C","q":7}""", """{"v":68.2,"u":"F"}""", """ { "v" : 20 } """,
            """{"t":"2026-01-10T08:00:00Z","v":20.1}""", """{"v":20.1,"extra":{"a":[1,2,{"b":null}]}}""", "\uFEFF20.5", "20,5", "NaN", "{}", "[]", "",
            """{"v":"\ud800"}""", """{"v":1e400}""", """{"t":99999999999999999999,"v":1}""", """{"v":20.1,"v":"x"}""", """{"t":-1,"v":20}""",
        }.Select(Encoding.UTF8.GetBytes),
    ];

    private readonly Random random = new(seed);

    public byte[] Next()
    {
        var bytes = Good[random.Next(Good.Length)].ToList();
        for (var changes = random.Next(0, 4); changes > 0; changes--)
        {
            Change(bytes);
        }

        return [.. bytes];
    }

    private void Change(List<byte> bytes)
    {
        var at = random.Next(bytes.Count + 1);
        switch (random.Next(100))
        {
            case < 30 when at < bytes.Count:
                bytes[at] ^= (byte)(1 << random.Next(8));
                break;
            case < 50:
                bytes.RemoveRange(at, Math.Min(random.Next(8), bytes.Count - at));
                break;
            case < 70:
                bytes.InsertRange(at, RandomBytes(random.Next(1, 16)));
                break;
            case < 90:
                bytes.InsertRange(at, Good[random.Next(Good.Length)]);
                break;
            case < 97:
                bytes.InsertRange(at, Enumerable.Repeat("{[\"-9"u8[random.Next(5)], random.Next(2000)));
                break;
            case < 99:
                bytes.AddRange(RandomBytes(random.Next(4000)));
                break;
            default:
                // Every thousandth or so is larger than what is read at all; never two of them, since the broker keeps back packets beyond the
                // 128 KiB that the worker allows it, and those would be missing from the counts.
                bytes.AddRange(random.Next(10) == 0 && bytes.Count < 30_000 ? new byte[70_000] : [0, 0, 0]);
                break;
        }
    }

    private byte[] RandomBytes(int count)
    {
        var bytes = new byte[count];
        random.NextBytes(bytes);
        return bytes;
    }
}
