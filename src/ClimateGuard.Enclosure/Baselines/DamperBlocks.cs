namespace ClimateGuard.Enclosure;

/// <summary>What share of outdoor air the temperatures show while the dampers stood still.</summary>
/// <param name="Block">When.</param>
/// <param name="Command">Command of the outdoor air damper, 0 to 1.</param>
/// <param name="Share">(T_mixed − T_return)/(T_outdoor − T_return).</param>
/// <param name="Lever">|T_outdoor − T_return|, in K: small means that the share cannot be told.</param>
/// <param name="ReturnCommand">Command of the return air damper, 0 to 1, or NaN when not known.</param>
public sealed record DamperBlock(SteadyBlock Block, double Command, double Share, double Lever, double ReturnCommand)
{
    /// <summary>Whether any damper could do this; else the temperatures are wrong or the air is badly mixed.</summary>
    public bool Possible => Share is > -0.15 and < 1.15;
}

/// <summary>Mixing balance, block by block.</summary>
internal static class DamperBlocks
{
    private const int Settle = 10;

    public static IReadOnlyList<DamperBlock> Of(HandlerSignals signals)
    {
        if (signals is not { Mixed: { } mixed, Return: { } back, Outdoor: { } outdoor, Damper: { } damper }) return [];
        bool Holds(int m) => signals.FanOn[m] && !double.IsNaN(mixed[m]) && !double.IsNaN(back[m]) && !double.IsNaN(outdoor[m])
            && !double.IsNaN(damper[m]) && SteadyBlocks.Still(damper, m, 0.05);
        return [.. SteadyBlocks.Of(signals.Frame.Minutes, Settle, Holds).Select(block => Measured(block, mixed, back, outdoor, damper) with
        {
            ReturnCommand = block.Median(signals.Of("returnDamperCommand")),
        })];
    }

    private static DamperBlock Measured(SteadyBlock block, double[] mixed, double[] back, double[] outdoor, double[] damper)
    {
        var shares = new double[block.Minutes];
        var levers = new double[block.Minutes];
        for (var i = 0; i < shares.Length; i++)
        {
            var minute = block.From + i;
            var lever = outdoor[minute] - back[minute];
            levers[i] = Math.Abs(lever);
            shares[i] = levers[i] < 0.5 ? double.NaN : (mixed[minute] - back[minute]) / lever;
        }

        return new DamperBlock(block, block.Median(damper), Robust.Median(shares), Robust.Median(levers), double.NaN);
    }
}
