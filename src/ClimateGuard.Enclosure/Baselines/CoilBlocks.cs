namespace ClimateGuard.Enclosure;

/// <summary>What a coil or a closed unit did to the air in one steady block.</summary>
/// <param name="Block">When.</param>
/// <param name="Rise">Supply minus entering air, in K.</param>
/// <param name="Cooling">Command of the cooling valve, 0 to 1; 0 when the unit has none.</param>
/// <param name="Heating">Command of the heater, 0 to 1; 0 when the unit has none.</param>
/// <param name="FanSpeed">Speed of the fan, 0 to 1; 1 when not known.</param>
/// <param name="Entering">Entering air, in °C.</param>
public sealed record CoilBlock(SteadyBlock Block, double Rise, double Cooling, double Heating, double FanSpeed, double Entering)
{
    /// <summary>Below this a valve counts as closed (E.3, F04: 2 %).</summary>
    public const double ClosedCommand = 0.02;

    /// <summary>Whether both coils are asked for nothing.</summary>
    public bool BothClosed => Cooling <= ClosedCommand && Heating <= ClosedCommand;
}

/// <summary>Energy balance over the coils, block by block: the fan runs and no command moves.</summary>
internal static class CoilBlocks
{
    private const int SettleClosed = 20;
    private const int SettleOpen = 5;

    public static IReadOnlyList<CoilBlock> Of(HandlerSignals signals)
    {
        if (signals.Supply is null || signals.Entering is null || (signals.Cooling is null && signals.Heating is null)) return [];
        bool Known(int m) => signals.FanOn[m] && !double.IsNaN(signals.Supply[m]) && !double.IsNaN(signals.Entering[m]);
        bool Zero(double[]? row, int m) => row is null || row[m] <= CoilBlock.ClosedCommand;
        var closed = SteadyBlocks.Of(
            signals.Frame.Minutes, SettleClosed, m => Known(m) && Zero(signals.Cooling, m) && Zero(signals.Heating, m));
        var open = SteadyBlocks.Of(
            signals.Frame.Minutes, SettleOpen, m => Known(m) && !(Zero(signals.Cooling, m) && Zero(signals.Heating, m))
                && SteadyBlocks.Still(signals.Cooling, m, 0.03) && SteadyBlocks.Still(signals.Heating, m, 0.03));
        return [.. closed.Concat(open).OrderBy(b => b.From).Select(b => Measured(signals, b))];
    }

    private static CoilBlock Measured(HandlerSignals signals, SteadyBlock block)
    {
        var rises = new double[block.Minutes];
        for (var i = 0; i < rises.Length; i++) rises[i] = signals.Supply![block.From + i] - signals.Entering![block.From + i];
        return new CoilBlock(
            block, Robust.Median(rises), Or(block.Median(signals.Cooling), 0), Or(block.Median(signals.Heating), 0),
            Share(Or(block.Median(signals.FanSpeed), 1)), block.Median(signals.Entering));
    }

    private static double Or(double value, double standIn) => double.IsNaN(value) ? standIn : value;

    // A speed in 1/min has no full value here; only shares are compared.
    private static double Share(double speed) => speed is > 0 and <= 1.5 ? speed : 1;
}
