namespace ClimateGuard.Watch;

/// <summary>Which machines are stepped in a round of the loop although nothing happened at them.</summary>
/// <remarks>
/// Readings come in rounds of milliseconds, heat moves in minutes: each machine is stepped by the clock, not by the round. What happens at a
/// machine steps it at once, whatever the pace. At most <see cref="MostInRound"/> in a round, in turn, so that the minute in which all of 500
/// outlooks are renewed holds up no reading and no request for longer than so many evaluations.
/// </remarks>
/// <param name="machines">How many machines there are.</param>
/// <param name="least">The least time between two steps of a machine; zero: each round.</param>
internal sealed class StepPace(int machines, TimeSpan least)
{
    private const int MostInRound = 64;

    private readonly DateTimeOffset?[] stepped = new DateTimeOffset?[machines];
    private readonly List<int> due = new(MostInRound);
    private DateTimeOffset? shown;
    private int next;

    /// <summary>The least time between two steps of a machine.</summary>
    public TimeSpan Least { get; } = least;

    /// <summary>The machines to step now; valid until the next call.</summary>
    public IReadOnlyList<int> DueAt(DateTimeOffset moment)
    {
        due.Clear();
        for (var looked = 0; looked < machines && due.Count < MostInRound; looked++)
        {
            if (IsDue(stepped[next], moment))
            {
                stepped[next] = moment;
                due.Add(next);
            }

            next = (next + 1) % machines;
        }

        return due;
    }

    /// <summary>Whether a new snapshot is worth making.</summary>
    public bool WantsSnapshotAt(DateTimeOffset moment)
    {
        var wanted = IsDue(shown, moment);
        shown = wanted ? moment : shown;
        return wanted;
    }

    /// <summary>The wall clock was set: all are due.</summary>
    public void AfterClockStep()
    {
        Array.Clear(stepped);
        shown = null;
    }

    private bool IsDue(DateTimeOffset? last, DateTimeOffset moment) => last is not { } then || moment - then >= Least;
}
