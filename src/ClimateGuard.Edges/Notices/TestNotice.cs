using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Notices;

/// <summary>A message that shows that a channel works, clearly marked.</summary>
public static class TestNotice
{
    /// <summary>A test message.</summary>
    /// <param name="key">Its key.</param>
    /// <param name="from">Where it comes from, such as the name of the computer.</param>
    /// <param name="now">The moment.</param>
    public static Notice Of(string key, string from, DateTimeOffset now) => new()
    {
        Key = key,
        Cell = "test",
        Kind = NoticeKind.Test,
        Time = now,
        Since = now,
        Priority = AlertPriority.Low,
        Cause = "test",
        Subject = $"TEST of ClimateGuard on {from}: nothing is the matter",
        Lines = [$"This is a test, sent by hand with \"climateguard notify test\" on {from}. Nothing is the matter with any machine."],
        Action = "Nothing to do.",
    };
}
