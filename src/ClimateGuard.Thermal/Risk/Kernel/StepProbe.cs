namespace ClimateGuard.Thermal;

/// <summary>Reads the coefficients of a step from the model itself, so that a new link in the model needs no change here.</summary>
/// <remarks>
/// Between inputs and numbers a step is a sum of products of at most two, and any smooth function of ln τ: each coefficient is what one unit
/// more changes, read at the Chebyshev nodes of ln τ; products are read as second differences. The plan is then compared with the model at
/// points of no pattern; when they differ it says that it is not understood.
/// </remarks>
internal sealed partial class StepProbe
{
    private const double Negligible = 1e-12;

    private readonly ThermalModel model;
    private readonly Medium medium;
    private readonly double seconds;
    private readonly int count;

    public StepProbe(ThermalModel model, Medium medium, double seconds)
    {
        this.model = model;
        this.medium = medium;
        this.seconds = seconds;
        count = model.Layout.Count;
    }

    /// <summary>Which numbers change when one of them is changed: [of, by].</summary>
    public bool[,] Dependence()
    {
        var reads = new bool[count, count];
        var at = Irregular(1);
        var inputs = IrregularInputs(1);
        var before = Follow(at, inputs);
        for (var by = 0; by < count; by++)
        {
            var moved = (double[])at.Clone();
            moved[by] += 0.01;
            var after = Follow(moved, inputs);
            for (var of = 0; of < count; of++)
            {
                reads[of, by] = Math.Abs(after[of] - before[of]) > Negligible;
            }
        }

        return reads;
    }

    /// <summary>Whether one step leaves a number as it is whatever surrounds it.</summary>
    public bool Stays(int number)
    {
        var first = Irregular(1);
        var second = Irregular(2);
        return Math.Abs(Follow(first, IrregularInputs(1))[number] - first[number]) < Negligible
            && Math.Abs(Follow(second, IrregularInputs(2))[number] - second[number]) < Negligible;
    }

    /// <summary>The covariance that one step adds.</summary>
    public double[] AddedCovariance()
    {
        var still = new ThermalState(count) { PartMedium = medium };
        model.Steps.Apply(still, StepInputs.Of(stackalloc double[StepInputs.Count], medium), seconds, overACut: true);
        return still.Covariance;
    }

    /// <summary>The plan of a step.</summary>
    public StepPlan Plan(KernelLayout layout, double reach)
    {
        var columns = ReadColumns(layout, reach);
        var products = ReadProducts(layout, reach);
        var rows = new List<StepRow>();
        var couplings = 0;
        foreach (var number in layout.Moving)
        {
            if (Stays(number))
            {
                continue;
            }

            var row = new StepRow(layout.SlotOf(number), Terms(layout, columns, products, number)) { FirstCoupling = couplings };
            couplings += row.Coupled.Length;
            rows.Add(row);
        }

        StepRow[] all = [.. rows];
        return new(medium, seconds, reach, all, Noise(layout), Agrees(layout, all, reach, 3) && Agrees(layout, all, reach, 4));
    }

    /// <summary>[column][number·nodes + node]: the constant, then the inputs, then the numbers in their slots.</summary>
    private double[][] ReadColumns(KernelLayout layout, double reach)
    {
        var columns = new double[StepInputs.Count + layout.Slots][];
        for (var c = 0; c < columns.Length; c++)
        {
            columns[c] = new double[count * ChebyshevSeries.Nodes];
            for (var node = 0; node < ChebyshevSeries.Nodes; node++)
            {
                var logTimeConstant = reach * ChebyshevSeries.Node(node);
                var origin = Unit(layout, -1, logTimeConstant);
                var there = c == StepInputs.One ? origin : Unit(layout, c, logTimeConstant);
                for (var number = 0; number < count; number++)
                {
                    columns[c][(number * ChebyshevSeries.Nodes) + node] = there[number] - (c == StepInputs.One ? 0 : origin[number]);
                }
            }
        }

        return columns;
    }

    private static StepTerm[] Terms(
        KernelLayout layout, double[][] columns, Dictionary<(int Column, int By), double[]> products, int number)
    {
        var terms = new List<StepTerm>();
        for (var c = 0; c < columns.Length; c++)
        {
            var slot = c - StepInputs.Count;
            if (slot >= 0 && layout.Live[slot] == StateLayout.LogTimeConstant)
            {
                continue;
            }

            var series = ChebyshevSeries.Through(columns[c].AsSpan(number * ChebyshevSeries.Nodes, ChebyshevSeries.Nodes));
            var factors = Factors(layout, c, number, products);
            if (Largest(columns[c], number) > Negligible || factors.Length > 0)
            {
                var source = slot < 0 ? TermSource.Input : layout.IsMoving(layout.Live[slot]) ? TermSource.Moving : TermSource.Fixed;
                terms.Add(new(source, slot < 0 ? c : slot, series, factors));
            }
        }

        return [.. terms];
    }

    private static double Largest(double[] column, int number)
    {
        var values = column.AsSpan(number * ChebyshevSeries.Nodes, ChebyshevSeries.Nodes);
        var largest = 0.0;
        foreach (var value in values)
        {
            largest = Math.Max(largest, Math.Abs(value));
        }

        return largest;
    }

    private NoiseColumn[] Noise(KernelLayout layout)
    {
        var added = AddedCovariance();
        var slots = layout.Slots;
        var live = new double[slots * slots];
        for (var i = 0; i < slots; i++)
        {
            for (var k = 0; k < slots; k++)
            {
                live[(i * slots) + k] = added[(layout.Live[i] * count) + layout.Live[k]];
            }
        }

        var root = CovarianceRoot.Of(live, slots);
        var columns = new List<NoiseColumn>();
        for (var k = 0; k < slots; k++)
        {
            Multiplier[] adds = [.. Enumerable.Range(0, slots).Where(i => root[(i * slots) + k] != 0).Select(i => new Multiplier(i, root[(i * slots) + k]))];
            if (adds.Length > 0)
            {
                columns.Add(new(adds));
            }
        }

        return [.. columns];
    }

    private bool Agrees(KernelLayout layout, StepRow[] rows, double reach, int pattern)
    {
        var at = Irregular(pattern);
        at[StateLayout.LogTimeConstant] = 0.7 * reach * (pattern % 2 == 0 ? 1 : -1);
        var inputs = IrregularInputs(pattern);
        var expected = Follow(at, inputs);
        var values = new double[layout.Slots * PathBlock.Lanes];
        for (var slot = 0; slot < layout.Slots; slot++)
        {
            values.AsSpan(slot * PathBlock.Lanes, PathBlock.Lanes).Fill(at[layout.Live[slot]]);
        }

        var t = System.Runtime.Intrinsics.Vector256.Create(reach > 0 ? at[StateLayout.LogTimeConstant] / reach : 0);
        foreach (var row in rows)
        {
            var sum = 0.0;
            foreach (var term in row.Terms)
            {
                var read = term.Source == TermSource.Input ? inputs[term.Index] : at[layout.Live[term.Index]];
                sum += term.Coefficient(t, values, PathBlock.Lanes, 0)[0] * read;
            }

            var wanted = expected[layout.Live[row.Slot]];
            if (!(Math.Abs(sum - wanted) <= 1e-7 * (1 + Math.Abs(wanted))))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>One step from zero, with one unit of one column and of one number.</summary>
    private double[] Unit(KernelLayout layout, int column, double logTimeConstant, int alsoNumber = -1)
    {
        var values = new double[count];
        Span<double> inputs = stackalloc double[StepInputs.Count];
        inputs.Clear();
        values[StateLayout.LogTimeConstant] = logTimeConstant;
        if (column >= StepInputs.Count)
        {
            values[layout.Live[column - StepInputs.Count]] += 1;
        }
        else if (column > 0)
        {
            inputs[column] = 1;
        }

        if (alsoNumber >= 0)
        {
            values[alsoNumber] += 1;
        }

        return Follow(values, inputs);
    }

    private double[] Follow(double[] at, ReadOnlySpan<double> inputs)
    {
        var values = (double[])at.Clone();
        model.Steps.Follow(values, StepInputs.Of(inputs, medium), seconds);
        return values;
    }

    private double[] Irregular(int pattern)
    {
        var values = new double[count];
        for (var i = 0; i < count; i++)
        {
            values[i] = 1 + Math.Sin((pattern * 1.7) + (i * 2.3));
        }

        values[StateLayout.LogTimeConstant] = 0.1 * pattern;
        return values;
    }

    private static double[] IrregularInputs(int pattern) => [1, 1.3 + pattern, 2.7 - pattern, 0.9 * pattern, 0.4 + (0.1 * pattern)];
}
