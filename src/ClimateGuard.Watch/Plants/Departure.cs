namespace ClimateGuard.Watch;

/// <summary>A machine that the plant file no longer has: nothing it said may go on being believed.</summary>
internal static class Departure
{
    private const string Because = "the machine was taken out of the plant file";

    /// <summary>What is told of it for the last time, and what is remembered should it come back: the numbers of its outlooks and permits go on.</summary>
    public static (MachineState Bare, IReadOnlyList<Decision> Decisions) Of(MachineState state, DateTimeOffset now)
    {
        List<Decision> decisions = [];
        var permits = state.Permits with { Latch = null };
        if (permits.Newest is { } permit && permit.HoldsAt(now))
        {
            permits = permits with { Newest = permit with { Fate = PermitFate.Revoked, RevokedBecause = Because } };
            decisions.Add(new PermitChanged(now, permits.Newest));
        }

        if (state.Override is { } taken)
        {
            decisions.Add(new OverrideTaken(now, state.Machine, null, $"the override of {taken.By} has ended: {Because}"));
        }

        var last = new Outlook
        {
            Machine = state.Machine,
            Level = Level.NotKnown,
            Reason = $"Machine {state.Machine} was taken out of the plant file.",
            Action = "Nothing is watched here any more; ask before the finish cut.",
            Seq = state.Seq + 1,
            IssuedAt = now,
            ValidUntil = now,
        };
        decisions.Add(new OutlookIssued(now, last, Changed: true));
        decisions.AddRange(Alerts.Over(state.Outlook, now));
        return (new MachineState { Machine = state.Machine, At = now, Seq = last.Seq, Permits = permits }, decisions);
    }
}
