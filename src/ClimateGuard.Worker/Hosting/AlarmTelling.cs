using ClimateGuard.Edges.Json;
using ClimateGuard.Edges.Mqtt;
using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Hosting;

/// <summary>Tells an alarm about the worker itself: the ledger first, then everybody who is told.</summary>
internal sealed class AlarmTelling(IEnumerable<IAlertChannel> listeners, MqttOutlooks mqtt, ILedgerStore ledger, ILogger<AlarmTelling> logger)
{
    private readonly IAlertChannel[] told = [mqtt, .. listeners];

    public async Task TellAsync(AlertRaised alarm, CancellationToken cancellation)
    {
        logger.Log(alarm.Alert.Cleared ? LogLevel.Information : LogLevel.Error, "{Text}", alarm.Alert.Text);
        try
        {
            if (LedgerLines.Of(alarm) is { } line)
            {
                await ledger.AppendAsync([line], cancellation);
            }

            foreach (var listener in told)
            {
                await listener.TellAsync([alarm], cancellation);
            }
        }
        catch (Exception failure) when (failure is not OperationCanceledException)
        {
            logger.LogError("The alarm {Id} could not be told: {Reason}", alarm.Alert.Id, failure.Message);
        }
    }
}
