namespace ClimateGuard.Thermal;

/// <summary>What becomes of the numbers of a path when the part comes into another medium, read from the model.</summary>
internal sealed class MediumChange
{
    private readonly (int Slot, Multiplier[] Sum)[] rows;
    private readonly double[] sums;

    private MediumChange((int Slot, Multiplier[] Sum)[] rows)
    {
        this.rows = rows;
        sums = new double[rows.Length * PathBlock.Lanes];
    }

    public static MediumChange Read(ThermalModel model, KernelLayout layout, Medium from, Medium to)
    {
        var columns = layout.Live.Select(by => After(model, by, from, to)).ToArray();
        var rows = new List<(int, Multiplier[])>();
        for (var slot = 0; slot < layout.Slots; slot++)
        {
            var number = layout.Live[slot];
            Multiplier[] sum = [.. Enumerable.Range(0, layout.Slots).Where(by => columns[by][number] != 0).Select(by => new Multiplier(by, columns[by][number]))];
            if (sum is not [{ Weight: 1 }] || sum[0].Slot != slot)
            {
                rows.Add((slot, sum));
            }
        }

        return new([.. rows]);
    }

    public void Apply(PathBlock block)
    {
        for (var row = 0; row < rows.Length; row++)
        {
            block.Sum(rows[row].Sum, sums.AsSpan(row * PathBlock.Lanes, PathBlock.Lanes));
        }

        for (var row = 0; row < rows.Length; row++)
        {
            sums.AsSpan(row * PathBlock.Lanes, PathBlock.Lanes).CopyTo(block.Values.AsSpan(rows[row].Slot * PathBlock.Lanes, PathBlock.Lanes));
        }
    }

    private static double[] After(ThermalModel model, int unit, Medium from, Medium to)
    {
        var state = new ThermalState(model.Layout.Count) { PartMedium = from };
        state.Mean[unit] = 1;
        model.EnterMedium(state, to);
        return state.Mean;
    }
}
