using System.Runtime.Intrinsics;

namespace ClimateGuard.Thermal;

/// <summary>Standard normal numbers by the block, for the paths of a cut: re-seeded without allocation, the same on every machine.</summary>
/// <remarks>
/// Box and Muller (1958) on <see cref="XoshiroLanes"/>, as <see cref="GaussianStream"/>, but the quarter turn is drawn by two spare bits of the
/// word, so the series of sine and cosine need only ±π/4 and no reduction; no number is farther out than 8.5. Only +, −, ×, ÷, √ and bits,
/// no fused multiply-add: fixed four lanes give the same bits with and without vector hardware. The series are good to 1e-13. Not safe across threads.
/// </remarks>
internal sealed class NormalBlocks
{
    private const int Block = 2 * XoshiroLanes.Lanes;
    private XoshiroLanes lanes;

    /// <summary>Starts the stream of a seed.</summary>
    public void Seed(ulong seed)
    {
        Span<ulong> state = stackalloc ulong[XoshiroLanes.StateWords];
        var mix = new SplitMix64(seed);
        foreach (ref var word in state)
        {
            word = mix.Next();
        }

        lanes = new(state);
    }

    /// <summary>The next numbers.</summary>
    /// <param name="numbers">Where they go; a multiple of eight.</param>
    public void Fill(Span<double> numbers)
    {
        var source = lanes;
        for (; numbers.Length >= Block; numbers = numbers[Block..])
        {
            // 1 − u lies in (0, 1], so the logarithm is finite.
            var radius = Vector256.Sqrt(Log(Vector256<double>.One - source.NextUnit()) * -2.0);
            var (cosine, sine) = Direction(source.Next());
            (radius * cosine).CopyTo(numbers);
            (radius * sine).CopyTo(numbers[XoshiroLanes.Lanes..]);
        }

        lanes = source;
    }

    private static Vector256<double> Log(Vector256<double> x)
    {
        // x = m·2ᵉ with m in [√½, √2): the bits above √½ are taken off as the exponent, then ln m = 2·artanh((m − 1)/(m + 1)).
        var above = x.AsUInt64() - Vector256.Create(0x3FE6_A09E_667F_3BCDUL);
        var exponent = ((above + Vector256.Create(0x4000_0000_0000_0000UL)) >>> 52) - Vector256.Create(0x400UL);
        var mantissa = (x.AsUInt64() - (exponent << 52)).AsDouble();

        // An integer below 2⁵¹ in magnitude becomes a number by adding it to the bits of 1.5·2⁵²: one addition on every machine.
        var magic = Vector256.Create(0x4338_0000_0000_0000UL);
        var power = (exponent + magic).AsDouble() - magic.AsDouble();
        var s = (mantissa - Vector256<double>.One) / (mantissa + Vector256<double>.One);
        var q = s * s;
        var q2 = q * q;
        var q4 = q2 * q2;
        var low = (Vector256.Create(1.0) + (q * (1.0 / 3))) + (q2 * (Vector256.Create(1.0 / 5) + (q * (1.0 / 7))));
        var high = (Vector256.Create(1.0 / 9) + (q * (1.0 / 11))) + (q2 * (Vector256.Create(1.0 / 13) + (q * (1.0 / 15))));
        return (power * 0.69314718055994531) + ((s + s) * (low + (q4 * high)));
    }

    private static (Vector256<double> Cosine, Vector256<double> Sine) Direction(Vector256<ulong> word)
    {
        var unit = ((word >>> 12) | Vector256.Create(0x3FF0_0000_0000_0000UL)).AsDouble() - Vector256.Create(1.5);
        var angle = unit * (Math.PI / 2);
        var q = angle * angle;
        var q2 = q * q;
        var q4 = q2 * q2;
        var sine = angle * ((Vector256.Create(1.0) - (q * (1.0 / 6))) + (q2 * (Vector256.Create(1.0 / 120) - (q * (1.0 / 5040))))
            + (q4 * ((Vector256.Create(1.0 / 362880) - (q * (1.0 / 39916800))) + (q2 * (1.0 / 6227020800)))));
        var cosine = (Vector256.Create(1.0) - (q * 0.5)) + (q2 * (Vector256.Create(1.0 / 24) - (q * (1.0 / 720))))
            + (q4 * ((Vector256.Create(1.0 / 40320) - (q * (1.0 / 3628800))) + (q2 * (Vector256.Create(1.0 / 479001600) - (q * (1.0 / 87178291200))))));

        // The arc ±π/4 about +x, turned to −x by one bit and mirrored to ±y by another, covers the circle evenly.
        var across = (cosine.AsUInt64() ^ ((word & Vector256.Create(2UL)) << 62)).AsDouble();
        var swap = Vector256.Equals(word & Vector256<ulong>.One, Vector256<ulong>.One).AsDouble();
        return (Vector256.ConditionalSelect(swap, sine, across), Vector256.ConditionalSelect(swap, across, sine));
    }
}
