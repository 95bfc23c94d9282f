using ClimateGuard.Edges.Notices;
using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Hosting;

/// <summary>Raises an alarm when a channel to people does not get through, and clears it; pure.</summary>
public sealed class ChannelAlarms
{
    /// <summary>A server that restarts is not worth an alarm.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromMinutes(5);

    private readonly HashSet<string> raised = new(StringComparer.Ordinal);

    /// <summary>What is to be told of one channel.</summary>
    /// <param name="health">How it stands.</param>
    /// <param name="wall">The moment by the clock of the wall, by which it fails.</param>
    /// <param name="cellTime">The moment by the clock of the cell, for the alert.</param>
    public AlertRaised? Step(ChannelHealth health, DateTimeOffset wall, DateTimeOffset cellTime)
    {
        var fails = health.FailingSince is { } since && wall - since >= Patience;
        if (fails ? !raised.Add(health.Channel) : !(health.FailingSince is null && raised.Remove(health.Channel)))
        {
            return null;
        }

        var text = fails
            ? $"Messages by {health.Channel} have not got through for {Words.Minutes(wall - health.FailingSince!.Value)}; {health.Waiting} wait. {health.LastError}"
            : $"Messages by {health.Channel} get through again.";
        var action = fails ? $"Mend {health.Channel}, then run climateguard notify test --channel {health.Channel}." : "Nothing to do.";
        return new AlertRaised(cellTime, new Alert($"channel/{health.Channel}", null, $"{health.Channel} fails", text, action, Cleared: !fails));
    }
}
