using System.Runtime.Intrinsics;

namespace ClimateGuard.Thermal;

/// <summary>Four xoshiro256++ generators side by side (Blackman and Vigna 2019, public-domain reference).</summary>
/// <remarks>Always four lanes: hardware with shorter or longer vectors does the same integer arithmetic and gives the same bits.</remarks>
internal struct XoshiroLanes
{
    /// <summary>How many generators run side by side.</summary>
    public const int Lanes = 4;

    /// <summary>Words of state: four for each lane.</summary>
    public const int StateWords = 16;

    private Vector256<ulong> _s0;
    private Vector256<ulong> _s1;
    private Vector256<ulong> _s2;
    private Vector256<ulong> _s3;

    /// <summary>Lane i takes the words 4i to 4i + 3.</summary>
    public XoshiroLanes(ReadOnlySpan<ulong> state)
    {
        _s0 = Vector256.Create(state[0], state[4], state[8], state[12]);
        _s1 = Vector256.Create(state[1], state[5], state[9], state[13]);
        _s2 = Vector256.Create(state[2], state[6], state[10], state[14]);
        _s3 = Vector256.Create(state[3], state[7], state[11], state[15]);
    }

    /// <summary>The next 64 bits of each lane.</summary>
    public Vector256<ulong> Next()
    {
        var result = Rotate(_s0 + _s3, 23) + _s0;
        var t = _s1 << 17;
        _s2 ^= _s0;
        _s3 ^= _s1;
        _s1 ^= _s2;
        _s0 ^= _s3;
        _s2 ^= t;
        _s3 = Rotate(_s3, 45);
        return result;
    }

    /// <summary>The next numbers of each lane, in [0, 1) in steps of 2⁻⁵².</summary>
    public Vector256<double> NextUnit() =>
        ((Next() >>> 12) | Vector256.Create(0x3FF0_0000_0000_0000UL)).AsDouble() - Vector256<double>.One;

    private static Vector256<ulong> Rotate(Vector256<ulong> x, int bits) => (x << bits) | (x >>> (64 - bits));
}
