using System.Runtime.Intrinsics;

namespace ClimateGuard.Thermal;

/// <summary>A seeded stream of normal numbers of mean 0 and standard deviation 1; the same numbers for a seed on every machine.</summary>
/// <remarks>
/// Box–Muller (JCGM 101, C.4) on four fixed lanes of xoshiro256++, with a logarithm, sine and cosine that round the same everywhere.
/// No number is farther out than 8.5. How a caller cuts its requests makes no difference to the numbers. Not safe across threads:
/// one stream per thread. Not for secrets.
/// </remarks>
public sealed class GaussianStream
{
    private const int Block = 2 * XoshiroLanes.Lanes;

    private readonly double[] _pending = new double[Block];
    private XoshiroLanes _lanes;
    private int _next = Block;

    /// <summary>The stream of a seed.</summary>
    /// <param name="seed">Any number; different seeds give unrelated streams.</param>
    public GaussianStream(ulong seed)
    {
        Span<ulong> state = stackalloc ulong[XoshiroLanes.StateWords];
        var mix = new SplitMix64(seed);
        foreach (ref var word in state) word = mix.Next();
        _lanes = new(state);
    }

    /// <summary>The next number.</summary>
    /// <returns>A draw of the standard normal distribution.</returns>
    public double Next()
    {
        if (_next == Block)
        {
            FillBlock(_pending);
            _next = 0;
        }

        return _pending[_next++];
    }

    /// <summary>The next numbers.</summary>
    /// <param name="numbers">Where they go.</param>
    public void Fill(Span<double> numbers)
    {
        var i = 0;
        while (i < numbers.Length && _next < Block) numbers[i++] = _pending[_next++];
        for (; numbers.Length - i >= Block; i += Block) FillBlock(numbers.Slice(i, Block));
        while (i < numbers.Length) numbers[i++] = Next();
    }

    private void FillBlock(Span<double> eight)
    {
        // 1 − u lies in (0, 1], so the logarithm is finite.
        var radius = Vector256.Sqrt(PortableMath.Log(Vector256<double>.One - _lanes.NextUnit()) * -2.0);
        var (sine, cosine) = PortableMath.SineCosineOfTurns(_lanes.NextUnit());
        (radius * cosine).CopyTo(eight);
        (radius * sine).CopyTo(eight[XoshiroLanes.Lanes..]);
    }
}
