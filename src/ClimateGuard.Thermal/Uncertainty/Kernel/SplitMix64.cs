namespace ClimateGuard.Thermal;

/// <summary>SplitMix64 (Steele, Lea, Flood 2014; public-domain reference by Vigna): spreads one seed over the state of other streams.</summary>
internal struct SplitMix64(ulong seed)
{
    private ulong _state = seed;

    /// <summary>The next 64 bits.</summary>
    public ulong Next()
    {
        unchecked
        {
            var z = _state += 0x9E3779B97F4A7C15UL;
            z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
            z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
            return z ^ (z >> 31);
        }
    }

    /// <summary>The seed of a child stream, far from its siblings.</summary>
    public static ulong Child(ulong seed, int index)
    {
        var first = new SplitMix64(unchecked((ulong)index + 1));
        return new SplitMix64(seed ^ first.Next()).Next();
    }
}
