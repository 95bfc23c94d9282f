using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>One thing the cell said: a reading, or an event.</summary>
/// <param name="EpochMilliseconds">Event time.</param>
/// <param name="Reading">The reading; meaningless when there is an event.</param>
/// <param name="Event">The event, or null.</param>
public readonly record struct CellSignal(long EpochMilliseconds, Reading Reading, CellEvent? Event)
{
    /// <summary>A reading.</summary>
    public static CellSignal Of(Reading reading) => new(reading.EpochMilliseconds, reading, null);

    /// <summary>An event.</summary>
    public static CellSignal Of(CellEvent cellEvent)
    {
        ArgumentNullException.ThrowIfNull(cellEvent);
        return new CellSignal(cellEvent.Time.ToUnixTimeMilliseconds(), default, cellEvent);
    }
}
