using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Pages.Words;

/// <summary>Whether readings come in, in one line of the header.</summary>
public static class ReadingsWords
{
    /// <summary>Such as <c>31 of 33 sensors in use</c>.</summary>
    public static string Of(CellSnapshot snapshot, bool? brokerConnected)
    {
        ArgumentNullException.ThrowIfNull(snapshot);
        if (brokerConnected == false)
        {
            return "broker: connection lost";
        }

        if (!(snapshot.Counts.ReceivedPerSecond > 0))
        {
            return "no readings in the last 10 s";
        }

        var used = snapshot.Sensors.Count(sensor => !SensorWords.NeedsAPerson(sensor.State));
        return FormattableString.Invariant($"{used} of {snapshot.Sensors.Count} sensors in use");
    }

    /// <summary>Whether the line tells of something that is wrong.</summary>
    public static bool IsFault(CellSnapshot snapshot, bool? brokerConnected)
    {
        ArgumentNullException.ThrowIfNull(snapshot);
        return brokerConnected == false
            || !(snapshot.Counts.ReceivedPerSecond > 0)
            || snapshot.Sensors.Any(sensor => SensorWords.NeedsAPerson(sensor.State));
    }
}
