namespace ClimateGuard.Simulator;

/// <summary>The signals of one step, put in the order of event time; reused from step to step.</summary>
internal sealed class SignalBuffer
{
    private CellSignal[] signals = new CellSignal[128];

    public int Count { get; private set; }

    public ReadOnlySpan<CellSignal> Signals => signals.AsSpan(0, Count);

    /// <summary>Adds behind all that are not later: stable, and nearly free because signals come nearly in order.</summary>
    public void Add(in CellSignal signal)
    {
        if (Count == signals.Length) Array.Resize(ref signals, 2 * signals.Length);
        var place = Count;
        while (place > 0 && signals[place - 1].EpochMilliseconds > signal.EpochMilliseconds)
        {
            signals[place] = signals[place - 1];
            place--;
        }

        signals[place] = signal;
        Count++;
    }

    public void Clear() => Count = 0;
}
