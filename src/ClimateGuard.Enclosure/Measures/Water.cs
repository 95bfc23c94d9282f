namespace ClimateGuard.Enclosure;

/// <summary>The chilled water against other days.</summary>
internal static class Water
{
    private static double Level(HandlerSignals signals) =>
        signals.Of("chilledWater") is { } row ? Robust.Quantile(RowMath.Blocks(row, 30), 0.5) : double.NaN;

    /// <summary>How much warmer than usual it was for 30 min, since when, and whether other days tell.</summary>
    public static (double Kelvins, int From, bool Learned) Rise(HandlerCase known)
    {
        if (known.Signals.Of("chilledWater") is not { } row) return (double.NaN, -1, false);
        var usual = known.Baseline.Usually("water", Level);
        known.Number("water", Level);
        var normal = usual.Learned ? usual.Median : Robust.Quantile(row, 0.1);
        var blocks = RowMath.Blocks(row, 30);
        return (Robust.Quantile(blocks, 0.97) - normal, 30 * Array.FindIndex(blocks, b => b >= normal + 2), usual.Learned);
    }

    /// <summary>Warm water explains a weak coil, normal water leaves the coil.</summary>
    public static void Against(HandlerCase known, List<Evidence> evidence)
    {
        var rise = Rise(known).Kelvins;
        if (double.IsNaN(rise)) return;
        if (rise > 1.5) evidence.Add(new(FormattableString.Invariant($"the chilled water is {rise:0.0} K too warm, which explains it"), -7, "water warm"));
    }
}
