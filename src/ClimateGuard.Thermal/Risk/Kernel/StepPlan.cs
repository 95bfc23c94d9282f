using System.Runtime.Intrinsics;

namespace ClimateGuard.Thermal;

/// <summary>One step of the drawn numbers in one medium, as sums that run over many paths at once.</summary>
/// <remarks>Immutable. The numbers stand in the slots of a <see cref="KernelLayout"/>.</remarks>
/// <param name="Medium">What covers the part.</param>
/// <param name="Seconds">Length of the step.</param>
/// <param name="Reach">The logarithm of the time constant lies within ± this; beyond it is taken at the edge.</param>
/// <param name="Rows">The numbers that move.</param>
/// <param name="Noise">The chance of one step, a column for each independent draw.</param>
/// <param name="Understood">False when the model does something these sums cannot say; then the readable paths must be used.</param>
internal sealed record StepPlan(
    Medium Medium, double Seconds, double Reach, StepRow[] Rows, NoiseColumn[] Noise, bool Understood);

/// <summary>How one number moves: the sum of its terms.</summary>
/// <param name="Slot">Where the number stands.</param>
/// <param name="Terms">What it is made of.</param>
internal sealed record StepRow(int Slot, StepTerm[] Terms)
{
    /// <summary>Other numbers that move and are read in the same step.</summary>
    public StepTerm[] Coupled { get; } = [.. Terms.Where(term => term.Source == TermSource.Moving && term.Index != Slot)];

    /// <summary>Where the couplings of this row begin among those of all rows.</summary>
    public int FirstCoupling { get; init; }
}

/// <summary>One term: (series of ln τ + Σ series·number) times what it reads.</summary>
/// <param name="Source">What it reads.</param>
/// <param name="Index">Which input or slot.</param>
/// <param name="Series">Its coefficient over the logarithm of the time constant.</param>
/// <param name="Factors">Numbers of the path that enter the coefficient as a product, such as the error of a sensitivity.</param>
internal sealed record StepTerm(TermSource Source, int Index, ChebyshevSeries Series, Factor[] Factors)
{
    /// <summary>The coefficient for four paths.</summary>
    /// <param name="t">ln τ over its reach.</param>
    /// <param name="values">The numbers of the paths, slot by slot.</param>
    /// <param name="width">Paths in a slot.</param>
    /// <param name="at">The first of the four paths.</param>
    public Vector256<double> Coefficient(Vector256<double> t, double[] values, int width, int at)
    {
        var sum = Series.At(t);
        foreach (var factor in Factors)
        {
            sum += Vector256.LoadUnsafe(ref values[(factor.Slot * width) + at]) * factor.Series.At(t);
        }

        return sum;
    }
}

/// <summary>A number of the path that enters a coefficient, with its weight over the logarithm of the time constant.</summary>
internal readonly record struct Factor(int Slot, ChebyshevSeries Series);

/// <summary>A number of the path that enters a sum.</summary>
internal readonly record struct Multiplier(int Slot, double Weight);

/// <summary>What a term reads.</summary>
internal enum TermSource
{
    /// <summary>One of the inputs of <see cref="StepInputs"/>.</summary>
    Input,

    /// <summary>A number that stays during a cut.</summary>
    Fixed,

    /// <summary>A number that moves.</summary>
    Moving,
}

/// <summary>One independent draw a step and what it adds where.</summary>
internal sealed record NoiseColumn(Multiplier[] Adds);

/// <summary>The inputs of a step, by index.</summary>
internal static class StepInputs
{
    public const int One = 0;
    public const int Air = 1;
    public const int Coolant = 2;
    public const int WetBulb = 3;
    public const int Load = 4;
    public const int Count = 5;

    /// <summary>The surroundings that have these inputs.</summary>
    public static Surroundings Of(ReadOnlySpan<double> inputs, Medium medium) =>
        new(inputs[Air], medium, inputs[Coolant], inputs[WetBulb], inputs[Load]);

    /// <summary>The inputs of surroundings; what is not used by the medium is zero.</summary>
    public static void Fill(in Surroundings surroundings, Span<double> inputs)
    {
        inputs[One] = 1;
        inputs[Air] = surroundings.AirCelsius;
        inputs[Coolant] = surroundings.Medium is Medium.Mist or Medium.Flood or Medium.Submerged ? surroundings.CoolantCelsius : 0;
        inputs[WetBulb] = surroundings.Medium == Medium.Wet ? surroundings.WetBulbCelsius : 0;
        inputs[Load] = surroundings.SpindleLoad;
    }
}
