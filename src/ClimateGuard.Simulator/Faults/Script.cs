namespace ClimateGuard.Simulator;

/// <summary>An action and when it happens, from the start of the script or of its cycle.</summary>
public sealed record TimedAction(TimeSpan At, CellAction Action);

/// <summary>What happens in a cell, in order; once, or in cycles that never end.</summary>
public sealed class Script
{
    private readonly Func<int, IEnumerable<TimedAction>> cycle;
    private readonly TimeSpan? period;

    private Script(Func<int, IEnumerable<TimedAction>> cycle, TimeSpan? period)
    {
        this.cycle = cycle;
        this.period = period;
    }

    /// <summary>Nothing happens.</summary>
    public static Script Empty { get; } = Once([]);

    /// <summary>A script that is played once.</summary>
    public static Script Once(IReadOnlyList<TimedAction> actions) => new(_ => actions, null);

    /// <summary>A script of cycles; the function gives the actions of cycle 0, 1, 2, …, with times from the start of the cycle.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The period is not positive.</exception>
    public static Script Cycles(TimeSpan period, Func<int, IReadOnlyList<TimedAction>> cycle)
    {
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(period, TimeSpan.Zero);
        return new Script(cycle, period);
    }

    internal IEnumerable<TimedAction> InOrder()
    {
        for (var number = 0; ; number++)
        {
            var shift = period * number ?? TimeSpan.Zero;
            foreach (var action in cycle(number).OrderBy(a => a.At)) yield return action with { At = action.At + shift };
            if (period is null) yield break;
        }
    }
}
