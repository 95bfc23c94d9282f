using System.Runtime.Intrinsics;

namespace ClimateGuard.Thermal;

/// <summary>A seeded stream of numbers spread evenly over [0, 1); the same numbers for a seed on every machine.</summary>
/// <remarks>
/// Four xoshiro256++ generators in fixed lanes, seeded by SplitMix64. How a caller cuts its requests makes no difference to the
/// numbers. Not safe across threads: one stream per thread. Not for secrets.
/// </remarks>
public sealed class UniformStream
{
    private readonly double[] _pending = new double[XoshiroLanes.Lanes];
    private XoshiroLanes _lanes;
    private int _next = XoshiroLanes.Lanes;

    /// <summary>The stream of a seed.</summary>
    /// <param name="seed">Any number; different seeds give unrelated streams.</param>
    public UniformStream(ulong seed)
    {
        Span<ulong> state = stackalloc ulong[XoshiroLanes.StateWords];
        var mix = new SplitMix64(seed);
        foreach (ref var word in state) word = mix.Next();
        _lanes = new(state);
    }

    private UniformStream(ReadOnlySpan<ulong> state) => _lanes = new(state);

    /// <summary>A stream from the bare state of its four lanes, such as the one of the generator's reference test.</summary>
    /// <param name="state">Sixteen words, four per lane, not all zero in any lane.</param>
    /// <returns>The stream.</returns>
    /// <exception cref="ArgumentException">There are not sixteen words, or a lane is all zero and would stay so.</exception>
    public static UniformStream FromState(ReadOnlySpan<ulong> state)
    {
        if (state.Length != XoshiroLanes.StateWords)
            throw new ArgumentException($"state must hold {XoshiroLanes.StateWords} words; it holds {state.Length}.", nameof(state));
        for (var lane = 0; lane < XoshiroLanes.Lanes; lane++)
        {
            if (!state.Slice(lane * 4, 4).ContainsAnyExcept(0UL))
                throw new ArgumentException($"Lane {lane} of state is all zero; a generator never leaves that state.", nameof(state));
        }

        return new(state);
    }

    /// <summary>The bare 64-bit words, lane by lane; what is left of a group of four is dropped.</summary>
    /// <param name="words">Where they go.</param>
    public void FillBits(Span<ulong> words)
    {
        Span<ulong> group = stackalloc ulong[XoshiroLanes.Lanes];
        for (var i = 0; i < words.Length; i += XoshiroLanes.Lanes)
        {
            _lanes.Next().CopyTo(group);
            group[..Math.Min(XoshiroLanes.Lanes, words.Length - i)].CopyTo(words[i..]);
        }
    }

    /// <summary>The next number, in [0, 1).</summary>
    /// <returns>The number.</returns>
    public double Next()
    {
        if (_next == _pending.Length)
        {
            _lanes.NextUnit().CopyTo(_pending);
            _next = 0;
        }

        return _pending[_next++];
    }

    /// <summary>The next numbers, each in [0, 1).</summary>
    /// <param name="numbers">Where they go.</param>
    public void Fill(Span<double> numbers)
    {
        var i = 0;
        while (i < numbers.Length && _next < _pending.Length) numbers[i++] = _pending[_next++];
        for (; numbers.Length - i >= XoshiroLanes.Lanes; i += XoshiroLanes.Lanes) _lanes.NextUnit().CopyTo(numbers[i..]);
        while (i < numbers.Length) numbers[i++] = Next();
    }
}
