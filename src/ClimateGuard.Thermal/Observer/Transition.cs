using System.Numerics;
using System.Runtime.InteropServices;

namespace ClimateGuard.Thermal;

/// <summary>The matrix F of one step, row by row with only what is not zero, on memory of the caller.</summary>
internal ref struct Transition
{
    /// <summary>The most entries a row can have: a sensor behind two nodes, a pallet, two offsets, an error of the time constant and a wet share.</summary>
    public const int MostInRow = 8;

    private readonly Span<double> weights;
    private readonly Span<int> columns;
    private readonly Span<int> counts;

    /// <summary>An identity of that many rows.</summary>
    /// <param name="weights">rows·<see cref="MostInRow"/> numbers.</param>
    /// <param name="columns">rows·<see cref="MostInRow"/> numbers.</param>
    /// <param name="counts">As many as rows.</param>
    public Transition(Span<double> weights, Span<int> columns, Span<int> counts)
    {
        this.weights = weights;
        this.columns = columns;
        this.counts = counts;
        for (var row = 0; row < counts.Length; row++)
        {
            Begin(row, 1);
        }
    }

    /// <summary>Starts a row again with what it keeps of itself.</summary>
    public readonly void Begin(int row, double keep)
    {
        counts[row] = 0;
        Add(row, row, keep);
    }

    /// <summary>Adds an entry; several of one column add up. A zero is left out.</summary>
    public readonly void Add(int row, int column, double weight)
    {
        if (weight == 0)
        {
            return;
        }

        var at = (row * MostInRow) + counts[row]++;
        columns[at] = column;
        weights[at] = weight;
    }

    /// <summary>P ← F·P·Fᵀ, symmetric to the last bit.</summary>
    /// <remarks>
    /// About half of the numbers of a machine stay as they are in a step: two of them keep what they have in common, and what one has in common with a
    /// number that moves is in F·P already.
    /// </remarks>
    /// <param name="covariance">P, row by row; symmetric.</param>
    /// <param name="half">Room for F·P.</param>
    public readonly void Apply(Span<double> covariance, Span<double> half)
    {
        var n = counts.Length;
        Span<int> moving = stackalloc int[n];
        var most = 0;
        for (var row = 0; row < n; row++)
        {
            if (Moves(row))
            {
                moving[most++] = row;
                TakeRow(row, covariance, half.Slice(row * n, n));
            }
        }

        moving = moving[..most];
        foreach (var row in moving)
        {
            var own = half.Slice(row * n, n);
            own.CopyTo(covariance.Slice(row * n, n));
            for (int other = 0, at = row; other < n; other++, at += n)
            {
                covariance[at] = own[other];
            }
        }

        // Of two that move, the sum is over the entries of the later one.
        for (var later = 0; later < most; later++)
        {
            var k = moving[later];
            var w = weights.Slice(k * MostInRow, counts[k]);
            var c = columns.Slice(k * MostInRow, counts[k]);
            foreach (var row in moving[..(later + 1)])
            {
                var sum = SumOf(w, c, half.Slice(row * n, n));
                covariance[(row * n) + k] = sum;
                covariance[(k * n) + row] = sum;
            }
        }
    }

    private readonly bool Moves(int row) => counts[row] != 1 || columns[row * MostInRow] != row || weights[row * MostInRow] != 1;

    private readonly void TakeRow(int row, ReadOnlySpan<double> covariance, Span<double> into)
    {
        var n = counts.Length;
        into.Clear();
        for (var e = row * MostInRow; e < (row * MostInRow) + counts[row]; e++)
        {
            AddScaled(into, covariance.Slice(columns[e] * n, n), weights[e]);
        }
    }

    private static double SumOf(ReadOnlySpan<double> w, ReadOnlySpan<int> c, ReadOnlySpan<double> from)
    {
        var sum = 0.0;
        for (var e = 0; e < w.Length; e++)
        {
            sum += w[e] * from[c[e]];
        }

        return sum;
    }

    private static void AddScaled(Span<double> into, ReadOnlySpan<double> from, double weight)
    {
        var wide = MemoryMarshal.Cast<double, Vector<double>>(into);
        var wideFrom = MemoryMarshal.Cast<double, Vector<double>>(from);
        var factor = new Vector<double>(weight);
        for (var i = 0; i < wide.Length; i++)
        {
            wide[i] += factor * wideFrom[i];
        }

        for (var i = wide.Length * Vector<double>.Count; i < into.Length; i++)
        {
            into[i] += weight * from[i];
        }
    }
}
