namespace ClimateGuard.Simulator;

/// <summary>Seeded chance, one stream per name, so that adding a sensor does not change the others.</summary>
internal sealed class Chance
{
    private ulong state;
    private double spare;
    private bool hasSpare;

    public Chance(int seed, string name)
    {
        // FNV-1a over the name: string.GetHashCode differs from process to process.
        var hash = 14695981039346656037UL ^ (uint)seed;
        foreach (var letter in name) hash = (hash ^ letter) * 1099511628211UL;
        state = hash;
        for (var i = 0; i < 4; i++) NextBits();
    }

    /// <summary>Uniform in [0, 1).</summary>
    public double Uniform() => (NextBits() >> 11) * (1.0 / (1UL << 53));

    /// <summary>Normal with mean 0 and standard deviation 1 (Box and Muller).</summary>
    public double Normal()
    {
        if (hasSpare)
        {
            hasSpare = false;
            return spare;
        }

        var radius = Math.Sqrt(-2.0 * Math.Log(1.0 - Uniform()));
        var (sine, cosine) = Math.SinCos(2.0 * Math.PI * Uniform());
        spare = radius * sine;
        hasSpare = true;
        return radius * cosine;
    }

    /// <summary>The value moved by 10 to 20 % up or down, times a scale; scale 0 leaves it.</summary>
    public double Perturbed(double value, double scale)
    {
        var sign = Uniform() < 0.5 ? -1.0 : 1.0;
        return value * (1.0 + (sign * scale * (0.10 + (0.10 * Uniform()))));
    }

    // SplitMix64 (Steele, Lea, Flood 2014): the same numbers on every machine and runtime.
    private ulong NextBits()
    {
        state += 0x9E3779B97F4A7C15UL;
        var z = state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        return z ^ (z >> 31);
    }
}
