namespace ClimateGuard.Enclosure;

/// <summary>What one window, usually a day, of one air handler showed: the blocks from which the rules judge and the others learn.</summary>
public sealed class HandlerDay
{
    /// <summary>Measures a window.</summary>
    public HandlerDay(HandlerSignals signals)
    {
        ArgumentNullException.ThrowIfNull(signals);
        Signals = signals;
        Curve = CoilCurve.Of(signals);
        Coils = CoilBlocks.Of(signals);
        Dampers = DamperBlocks.Of(signals);
    }

    /// <summary>The signals.</summary>
    public HandlerSignals Signals { get; }

    /// <summary>How far the cooling coil pulled the air down, by command.</summary>
    public CoilCurve Curve { get; }

    /// <summary>Its numbers.</summary>
    public DayFeatures Features { get; } = new();

    /// <summary>Blocks of the coils, in order of time.</summary>
    public IReadOnlyList<CoilBlock> Coils { get; }

    /// <summary>Blocks of the dampers, in order of time.</summary>
    public IReadOnlyList<DamperBlock> Dampers { get; }
}
