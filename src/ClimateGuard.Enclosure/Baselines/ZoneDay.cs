namespace ClimateGuard.Enclosure;

/// <summary>One window, usually a day, of one zone.</summary>
public sealed class ZoneDay
{
    /// <summary>Measures a window.</summary>
    public ZoneDay(ZoneSignals signals, IReadOnlyList<HandlerDay> handlers)
    {
        ArgumentNullException.ThrowIfNull(signals);
        Signals = signals;
        Handlers = handlers;
    }

    /// <summary>The signals.</summary>
    public ZoneSignals Signals { get; }

    /// <summary>The air handlers of the zone on that day.</summary>
    public IReadOnlyList<HandlerDay> Handlers { get; }

    /// <summary>Its numbers.</summary>
    public DayFeatures Features { get; } = new();
}
