namespace ClimateGuard.Watch;

/// <summary>Decides who-is-told-when for one channel: from alerts and the clock to messages, one for each cause.</summary>
/// <remarks>
/// <para>A cause is told once, corrected when its text says something else (not when a number moves), followed up at 30 min and 2 h while it
/// stands, and told as over. Machines with the same reason share one notice. One that comes and goes is told once, with a count. In the quiet
/// hours, and beyond the most in an hour, messages are held back and come as one digest.</para>
/// <para>Pure and deterministic: the same alerts at the same times give the same messages with the same keys.</para>
/// </remarks>
/// <param name="rules">When and how often.</param>
public sealed class NoticePolicy(NoticeRules rules)
{
    /// <summary>The rules in force.</summary>
    public NoticeRules Rules { get; } = rules ?? throw new ArgumentNullException(nameof(rules));

    /// <summary>One step.</summary>
    /// <param name="state">The state before; it is not changed.</param>
    /// <param name="alerts">What was raised or cleared since, in order; empty for a tick of the clock.</param>
    /// <param name="now">The moment; never earlier than the state's, else that is taken.</param>
    /// <returns>The state after, and the messages to be sent, in order.</returns>
    public (NoticeState State, IReadOnlyList<Notice> Notices) Step(NoticeState state, IReadOnlyList<RankedAlert> alerts, DateTimeOffset now)
    {
        ArgumentNullException.ThrowIfNull(state);
        ArgumentNullException.ThrowIfNull(alerts);
        var round = new NoticeRound(Rules, state, now < state.At ? state.At : now);
        foreach (var alert in alerts)
        {
            round.Take(alert);
        }

        round.Tell();
        return round.Result();
    }
}
