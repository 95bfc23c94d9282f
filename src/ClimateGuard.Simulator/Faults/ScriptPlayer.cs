namespace ClimateGuard.Simulator;

/// <summary>Plays a script in order of time, together with what its own actions ask for later.</summary>
internal sealed class ScriptPlayer
{
    private readonly IEnumerator<TimedAction> script;
    private readonly PriorityQueue<CellAction, (long At, long Order)> later = new();
    private readonly long startMilliseconds;
    private long order;
    private bool goesOn;

    public ScriptPlayer(Script script, long startMilliseconds)
    {
        this.script = script.InOrder().GetEnumerator();
        this.startMilliseconds = startMilliseconds;
        goesOn = this.script.MoveNext();
    }

    public void Later(DateTimeOffset at, CellAction action) => later.Enqueue(action, (at.ToUnixTimeMilliseconds(), order++));

    /// <summary>The next action before a time, or null; the script goes first when both are due at once.</summary>
    public CellAction? Next(long endMilliseconds, out DateTimeOffset at)
    {
        var scripted = goesOn ? startMilliseconds + (long)script.Current.At.TotalMilliseconds : long.MaxValue;
        var asked = later.TryPeek(out _, out var priority) ? priority.At : long.MaxValue;
        at = default;
        if (Math.Min(scripted, asked) >= endMilliseconds) return null;
        at = DateTimeOffset.FromUnixTimeMilliseconds(Math.Min(scripted, asked));
        if (asked < scripted) return later.Dequeue();
        var action = script.Current.Action;
        goesOn = script.MoveNext();
        return action;
    }
}
