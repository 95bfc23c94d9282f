using InfluxDB.Client;
using InfluxDB.Client.Api.Domain;
using InfluxDB.Client.Core.Exceptions;
using Polly;
using Polly.Timeout;

namespace ClimateGuard.Edges.Influx;

/// <summary>Sends lines to <c>/api/v2/write</c> with InfluxDB.Client, and says what became of them.</summary>
/// <remarks>Lines, not points: building points took more than half of the time of a batch. One caller at a time.</remarks>
internal sealed class InfluxWriter(InfluxSettings settings, InfluxToken token) : IDisposable
{
    private readonly ResiliencePipeline patience = new ResiliencePipelineBuilder().AddTimeout(settings.Timeout).Build();
    private InfluxDBClient? client;
    private WriteApiAsync? api;
    private int tokenVersion;

    /// <summary>Sends lines; when it returns InfluxDB has them.</summary>
    /// <exception cref="InfluxFaultException">It has not, or it is not known whether it has.</exception>
    public async Task SendAsync(string lines, CancellationToken cancellation)
    {
        var write = Api();
        try
        {
            await patience.ExecuteAsync(async waiting => await WriteAsync(write, lines, waiting), cancellation);
        }
        catch (HttpException refused) when (refused.Status >= 300)
        {
            if (refused.Status is 401 or 403)
            {
                token.ReadAgain();
            }

            throw InfluxFaultException.Of(
                settings, refused.Status, refused.Message, refused, refused.RetryAfter is { } seconds ? TimeSpan.FromSeconds(seconds) : null);
        }
        catch (Exception failed) when (failed is not OperationCanceledException || !cancellation.IsCancellationRequested)
        {
            var cause = failed is TimeoutRejectedException ? $"no answer within {settings.TimeoutSeconds} s" : failed.Message;
            throw InfluxFaultException.NoAnswer(settings, cause, failed);
        }
    }

    public void Dispose() => client?.Dispose();

    private async Task WriteAsync(WriteApiAsync write, string lines, CancellationToken waiting)
    {
        try
        {
            await write.WriteRecordAsync(lines, WritePrecision.Ns, settings.Bucket, settings.Org, waiting);
        }
        catch (Exception stopped) when (waiting.IsCancellationRequested)
        {
            // The client dresses it as a failure of its own.
            throw new OperationCanceledException(stopped.Message, stopped, waiting);
        }
    }

    private WriteApiAsync Api()
    {
        var value = token.Value;
        if (api is { } ready && tokenVersion == token.Version)
        {
            return ready;
        }

        client?.Dispose();
        var options = InfluxDBClientOptions.Builder.CreateNew().Url(settings.Url).TimeOut(2 * settings.Timeout).AllowRedirects(false);
        client = new InfluxDBClient((value.Length > 0 ? options.AuthenticateToken(value) : options).Build());
        tokenVersion = token.Version;
        return api = client.GetWriteApiAsync();
    }
}
