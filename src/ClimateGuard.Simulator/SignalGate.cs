using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>Where signals leave the cell; while it is shut they wait, in order.</summary>
internal sealed class SignalGate
{
    private readonly List<CellSignal> held = [];
    private long shutUntilMilliseconds = long.MinValue;

    public SignalBuffer Buffer { get; } = new();

    public bool IsOpen(long nowMilliseconds) => nowMilliseconds >= shutUntilMilliseconds;

    public void ShutUntil(DateTimeOffset until) => shutUntilMilliseconds = until.ToUnixTimeMilliseconds();

    public void Deliver(long nowMilliseconds, Action<Reading> onReading, Action<CellEvent> onEvent)
    {
        if (!IsOpen(nowMilliseconds))
        {
            foreach (var signal in Buffer.Signals) held.Add(signal);
            Buffer.Clear();
            return;
        }

        foreach (var signal in held) Hand(signal, onReading, onEvent);
        held.Clear();
        foreach (var signal in Buffer.Signals) Hand(signal, onReading, onEvent);
        Buffer.Clear();
    }

    private static void Hand(in CellSignal signal, Action<Reading> onReading, Action<CellEvent> onEvent)
    {
        if (signal.Event is { } cellEvent) onEvent(cellEvent);
        else onReading(signal.Reading);
    }
}
