namespace ClimateGuard.Watch;

/// <summary>What a person should be told when an outlook changes.</summary>
internal static class Alerts
{
    public static IEnumerable<Decision> Between(Outlook? last, Outlook next, DateTimeOffset now)
    {
        var before = last is null ? null : Cause(last.Level);
        var after = Cause(next.Level);
        var sameJob = last is not null && (last.Serial, last.Operation) == (next.Serial, next.Operation);
        if (before is not null && (before != after || !sameJob))
        {
            yield return new AlertRaised(now, Of(last!, before, cleared: true));
        }

        if (after is not null && (before != after || !sameJob))
        {
            yield return new AlertRaised(now, Of(next, after, cleared: false));
        }
    }

    /// <summary>The alert that stands after an outlook is over, whatever comes next.</summary>
    public static IEnumerable<Decision> Over(Outlook? last, DateTimeOffset now)
    {
        if (last is not null && Cause(last.Level) is { } cause)
        {
            yield return new AlertRaised(now, Of(last, cause, cleared: true));
        }
    }

    private static string? Cause(Level level) => level switch
    {
        Level.Hold => "hold",
        Level.NotKnown => "not known",
        _ => null,
    };

    private static Alert Of(Outlook outlook, string cause, bool cleared) => new(
        $"{outlook.Machine}/{outlook.Serial}/{outlook.Operation}/{cause}",
        outlook.Machine,
        cause,
        cleared ? $"{outlook.Machine}: {cause} is over for {outlook.Part} {outlook.Serial}." : $"{outlook.Machine}: {outlook.Reason}",
        cleared ? "Nothing to do." : outlook.Action,
        cleared);
}
