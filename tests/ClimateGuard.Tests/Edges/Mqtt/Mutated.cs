using CsCheck;

namespace ClimateGuard.Tests.Edges.Mqtt;

/// <summary>Good payloads with bytes changed, cut out, doubled or put in between, as a bad wire or a bad program makes them.</summary>
internal static class Mutated
{
    private static readonly byte[] Telling = "{}[]\":,\\u0123456789.eE+-tfn \u0000"u8.ToArray();

    private static readonly Gen<byte> Byte = Gen.OneOf(Gen.Byte, Gen.Int[0, Telling.Length - 1].Select(i => Telling[i]));

    internal static Gen<byte[]> Of(byte[][] seeds) =>
        Gen.Select(Gen.Int[0, seeds.Length - 1].Select(i => seeds[i]), Gen.Select(Gen.Int[0, 3], Gen.Int[0, 200], Byte).Array[1, 5], (seed, changes) =>
        {
            var bytes = seed.ToList();
            foreach (var (kind, place, value) in changes)
            {
                var at = bytes.Count == 0 ? 0 : place % bytes.Count;
                switch (kind)
                {
                    case 0 when bytes.Count > 0:
                        bytes[at] = value;
                        break;
                    case 1 when bytes.Count > 0:
                        bytes.RemoveAt(at);
                        break;
                    case 2:
                        bytes.InsertRange(at, [.. bytes.Skip(at)]);
                        break;
                    default:
                        bytes.Insert(at, value);
                        break;
                }
            }

            return bytes.ToArray();
        });
}
