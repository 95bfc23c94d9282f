using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace ClimateGuard.Thermal;

/// <summary>Sixty-four paths side by side: each number of the state is an array over the paths, stepped four at a time.</summary>
/// <remarks>
/// Limits: made for one <see cref="KernelLayout"/>, owned by one question at a time, allocates only when it is made. Multiplications and
/// additions are separate (the compiler does not fuse them), so four lanes in hardware and four in software give the same bits.
/// </remarks>
internal sealed class PathBlock
{
    /// <summary>Paths in a block: small enough for the block to stay in the nearest cache.</summary>
    public const int Lanes = 64;

    private const int Vector = 4;

    private readonly KernelLayout layout;
    private readonly NormalBlocks normals = new();
    private readonly double[] keep;
    private readonly double[] rest;
    private readonly double[] byAir;
    private readonly double[] waiting;
    private readonly double[] air = new double[Lanes];
    private double[] coupling = [];
    private double[] draws = [];
    private double[] factors = [];
    private StepPlan? plan;
    private bool plain;

    public PathBlock(KernelLayout layout)
    {
        this.layout = layout;
        Departure = layout.Slots;
        PartGain = layout.Slots + 1;
        ScaleGain = layout.Slots + 2;
        Values = new double[(layout.Slots + 3) * Lanes];
        keep = new double[layout.Slots * Lanes];
        rest = new double[layout.Slots * Lanes];
        byAir = new double[layout.Slots * Lanes];
        waiting = new double[layout.Slots * Lanes];
    }

    /// <summary>The numbers of the paths, slot by slot; the last three slots are the air's departure and the two expansion coefficients.</summary>
    public double[] Values { get; }

    /// <summary>The slot of the air's departure from its forecast.</summary>
    public int Departure { get; }

    /// <summary>The slot of the part's expansion coefficient.</summary>
    public int PartGain { get; }

    /// <summary>The slot of the scale's expansion coefficient.</summary>
    public int ScaleGain { get; }

    /// <summary>Starts the chance of this block.</summary>
    public void Seed(ulong seed) => normals.Seed(seed);

    /// <summary>Draws where the paths begin.</summary>
    /// <param name="mean">Means of all numbers of the state.</param>
    /// <param name="root">Lower triangular root of their covariance.</param>
    /// <param name="first">A feature, for the expansion coefficients all features share.</param>
    public void Draw(ReadOnlySpan<double> mean, ReadOnlySpan<double> root, FeatureModel first)
    {
        var count = mean.Length;
        Room(ref draws, (count + 2) * Lanes);
        normals.Fill(draws.AsSpan(0, (count + 2) * Lanes));
        for (var slot = 0; slot < layout.Slots; slot++)
        {
            var number = layout.Live[slot];
            Values.AsSpan(slot * Lanes, Lanes).Fill(mean[number]);
            for (var k = 0; k <= number; k++)
            {
                AddScaled(slot, k, root[(number * count) + k]);
            }
        }

        Values.AsSpan(Departure * Lanes, Lanes).Clear();
        Values.AsSpan(PartGain * Lanes, Lanes).Fill(first.PartGain);
        Values.AsSpan(ScaleGain * Lanes, Lanes).Fill(first.ScaleGain);
        AddScaled(PartGain, count, first.PartGain == 0 ? 0 : first.UPartAlpha);
        AddScaled(ScaleGain, count + 1, first.ScaleGain == 0 ? 0 : first.UScaleAlpha);
    }

    /// <summary>Works out what stays the same for each path while the surroundings but for the air stay.</summary>
    public void Enter(StepPlan next, in Surroundings surroundings)
    {
        plan = next;
        Span<double> inputs = stackalloc double[StepInputs.Count];
        StepInputs.Fill(surroundings, inputs);
        var couplings = next.Rows.Length == 0 ? 0 : next.Rows[^1].FirstCoupling + next.Rows[^1].Coupled.Length;
        plain = couplings == 0;
        Room(ref coupling, couplings * Lanes);
        Room(ref draws, (next.Noise.Length + 1) * Lanes);
        Room(ref factors, Lanes);
        FillFactors(next.Reach);
        for (var row = 0; row < next.Rows.Length; row++)
        {
            Gather(next.Rows[row], row, inputs);
        }
    }

    /// <summary>One step of all paths.</summary>
    /// <param name="airCelsius">The air forecast.</param>
    /// <param name="airKeep">What stays of the departure from the forecast.</param>
    /// <param name="airKick">Standard deviation of what is new in it.</param>
    public void Step(double airCelsius, double airKeep, double airKick)
    {
        normals.Fill(draws.AsSpan(0, (plan!.Noise.Length + 1) * Lanes));
        MoveAir(airCelsius, airKeep, airKick);
        if (plain)
        {
            MovePlain();
        }
        else
        {
            MoveCoupled();
        }

        for (var column = 0; column < plan.Noise.Length; column++)
        {
            foreach (var add in plan.Noise[column].Adds)
            {
                AddScaled(add.Slot, column + 1, add.Weight);
            }
        }
    }

    /// <summary>A weighted sum of numbers, for every path.</summary>
    public void Sum(Multiplier[] weights, Span<double> into)
    {
        into.Clear();
        foreach (var weight in weights)
        {
            for (var at = 0; at < Lanes; at += Vector)
            {
                ref var sum = ref into[at];
                (Vector256.LoadUnsafe(ref sum) + (Vector256.Create(weight.Weight) * At(Values, weight.Slot, at))).StoreUnsafe(ref sum);
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> At(double[] array, int slot, int lane) => Vector256.LoadUnsafe(ref array[(slot * Lanes) + lane]);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Put(Vector256<double> value, double[] array, int slot, int lane) => value.StoreUnsafe(ref array[(slot * Lanes) + lane]);

    private static void Room(ref double[] array, int length)
    {
        if (array.Length < length)
        {
            array = new double[length];
        }
    }

    private void AddScaled(int slot, int draw, double weight)
    {
        if (weight == 0)
        {
            return;
        }

        var w = Vector256.Create(weight);
        for (var at = 0; at < Lanes; at += Vector)
        {
            Put(At(Values, slot, at) + (w * At(draws, draw, at)), Values, slot, at);
        }
    }

    private void FillFactors(double reach)
    {
        var slot = layout.SlotOf(StateLayout.LogTimeConstant);
        for (var path = 0; path < Lanes; path++)
        {
            factors[path] = reach > 0 ? Math.Clamp(Values[(slot * Lanes) + path] / reach, -1, 1) : 0;
        }
    }

    private void Gather(StepRow row, int index, ReadOnlySpan<double> inputs)
    {
        for (var at = 0; at < Lanes; at += Vector)
        {
            var t = Vector256.LoadUnsafe(ref factors[at]);
            var (own, other, air) = (Vector256<double>.Zero, Vector256<double>.Zero, Vector256<double>.Zero);
            var next = row.FirstCoupling;
            foreach (var term in row.Terms)
            {
                var coefficient = term.Coefficient(t, Values, Lanes, at);
                switch (term.Source)
                {
                    case TermSource.Input when term.Index == StepInputs.Air:
                        air += coefficient;
                        break;
                    case TermSource.Input:
                        other += coefficient * inputs[term.Index];
                        break;
                    case TermSource.Fixed:
                        other += coefficient * At(Values, term.Index, at);
                        break;
                    case TermSource.Moving when term.Index == row.Slot:
                        own += coefficient;
                        break;
                    default:
                        Put(coefficient, coupling, next++, at);
                        break;
                }
            }

            Put(own, keep, index, at);
            Put(other, rest, index, at);
            Put(air, byAir, index, at);
        }
    }

    private void MoveAir(double airCelsius, double airKeep, double airKick)
    {
        var (forecast, stays, kick) = (Vector256.Create(airCelsius), Vector256.Create(airKeep), Vector256.Create(airKick));
        for (var at = 0; at < Lanes; at += Vector)
        {
            var departure = (stays * At(Values, Departure, at)) + (kick * At(draws, 0, at));
            Put(departure, Values, Departure, at);
            Put(forecast + departure, air, 0, at);
        }
    }

    private void MovePlain()
    {
        var rows = plan!.Rows;
        for (var row = 0; row < rows.Length; row++)
        {
            var slot = rows[row].Slot;
            for (var at = 0; at < Lanes; at += Vector)
            {
                Put((At(keep, row, at) * At(Values, slot, at)) + (At(rest, row, at) + (At(byAir, row, at) * At(air, 0, at))), Values, slot, at);
            }
        }
    }

    /// <summary>Rows that read one another read what stood before the step.</summary>
    private void MoveCoupled()
    {
        var rows = plan!.Rows;
        for (var row = 0; row < rows.Length; row++)
        {
            var slot = rows[row].Slot;
            for (var at = 0; at < Lanes; at += Vector)
            {
                var sum = (At(keep, row, at) * At(Values, slot, at)) + (At(rest, row, at) + (At(byAir, row, at) * At(air, 0, at)));
                for (var c = 0; c < rows[row].Coupled.Length; c++)
                {
                    sum += At(coupling, rows[row].FirstCoupling + c, at) * At(Values, rows[row].Coupled[c].Index, at);
                }

                Put(sum, waiting, row, at);
            }
        }

        for (var row = 0; row < rows.Length; row++)
        {
            waiting.AsSpan(row * Lanes, Lanes).CopyTo(Values.AsSpan(rows[row].Slot * Lanes, Lanes));
        }
    }
}
