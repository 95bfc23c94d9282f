using System.Runtime.Intrinsics;
using BenchmarkDotNet.Attributes;
using ClimateGuard.Thermal;

namespace ClimateGuard.Benchmarks;

/// <summary>The question of <see cref="CutRiskBenchmarks"/> against bare loops of the same amount of arithmetic in the same run.</summary>
[MemoryDiagnoser]
public class CutCeilingBenchmarks
{
    /// <summary>Draws a path and step: the air, the part, the scale and three axes.</summary>
    private const int DrawsPerStep = 6;

    /// <summary>Vector operations behind eight draws, counted in the source: words, logarithm, root, sine, cosine.</summary>
    private const int OperationsPerEightDraws = 104;

    /// <summary>Multiply-adds a path and step: 20 features of about three and the state of about thirty.</summary>
    private const int MultiplyAddsPerStep = (20 * 3) + 30;

    private const int Paths = 2000;
    private const int Steps = 90;

    private readonly ThermalModel model = BenchmarkCase.Model(20);
    private readonly CutAhead cut = BenchmarkCase.Cut(Steps, Paths);
    private readonly NormalBlocks normals = new();
    private readonly GaussianStream stream = new(1);
    private readonly double[] draws = new double[512];
    private readonly double[] block = new double[2048];
    private readonly double[] probabilities = new double[20];
    private ThermalState state = null!;
    private TimeSpan[] durations = [];

    [GlobalSetup]
    public void Begin()
    {
        state = BenchmarkCase.State(model);
        durations = [.. model.Effects.Select(_ => TimeSpan.FromMinutes(Steps))];
        normals.Seed(1);
    }

    /// <summary>As many bare vector multiply-adds as the paths need, over a block that stays in the nearest cache.</summary>
    [Benchmark]
    public double BareMultiplyAdds() => Bare((long)Paths * Steps * MultiplyAddsPerStep / 4);

    /// <summary>As many bare vector operations in registers as the draws need.</summary>
    [Benchmark]
    public double BareOperationsOfDraws() => InRegisters((long)Paths * Steps * DrawsPerStep * OperationsPerEightDraws / 8);

    /// <summary>The draws alone.</summary>
    [Benchmark]
    public void Draws()
    {
        for (var i = 0; i < Paths * Steps * DrawsPerStep; i += draws.Length)
        {
            normals.Fill(draws);
        }
    }

    /// <summary>The same draws from the stream of the Monte Carlo.</summary>
    [Benchmark]
    public void DrawsOfGaussianStream()
    {
        for (var i = 0; i < Paths * Steps * DrawsPerStep; i += draws.Length)
        {
            stream.Fill(draws);
        }
    }

    /// <summary>The whole question.</summary>
    [Benchmark]
    public void WholeQuestion() => FastCutPaths.Exceedance(model, state, cut, durations, probabilities);

    /// <summary>The readable paths, for comparison.</summary>
    [Benchmark]
    public double[] ReadablePaths() => CutPaths.Exceedance(model, state, cut, durations);

    /// <summary>So many vector operations, a multiply and an add in turn, on eight independent chains that never leave the registers.</summary>
    private static double InRegisters(long operations)
    {
        var (factor, term) = (Vector256.Create(0.999), Vector256.Create(0.001));
        var (a, b, c, d) = (term, factor, term, factor);
        var (e, f, g, h) = (factor, term, factor, term);
        for (long done = 0; done < operations; done += 16)
        {
            a = (a * factor) + term;
            b = (b * factor) + term;
            c = (c * factor) + term;
            d = (d * factor) + term;
            e = (e * factor) + term;
            f = (f * factor) + term;
            g = (g * factor) + term;
            h = (h * factor) + term;
        }

        return Vector256.Sum(a + b + c + d + e + f + g + h);
    }

    /// <summary>A multiply and an add for each of so many vectors of four, read from and written to the block.</summary>
    private double Bare(long vectors)
    {
        var (factor, term) = (Vector256.Create(0.999), Vector256.Create(0.001));
        ref var first = ref block[0];
        for (long done = 0; done < vectors; done += block.Length / 4)
        {
            for (nuint at = 0; at < (nuint)block.Length; at += 4)
            {
                ((Vector256.LoadUnsafe(ref first, at) * factor) + term).StoreUnsafe(ref first, at);
            }
        }

        return block[0];
    }
}
