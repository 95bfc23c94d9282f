using System.Net.Http.Headers;
using System.Text.Json;
using Polly;
using Polly.Timeout;

namespace ClimateGuard.Edges.Influx;

/// <summary>Asks InfluxDB in InfluxQL over <c>/query</c>, which every generation of it answers. Safe across threads.</summary>
/// <remarks>InfluxDB.Client has no call for it. Answers are bounded; whoever expects more asks page by page.</remarks>
internal sealed class InfluxQuery : IDisposable
{
    /// <summary>The longest answer that is read, in bytes.</summary>
    private const int MostBytes = 64 << 20;

    private readonly InfluxSettings settings;
    private readonly InfluxToken token;
    private readonly ResiliencePipeline patience;
    private readonly HttpClient http = new(new SocketsHttpHandler { AllowAutoRedirect = false, PooledConnectionLifetime = TimeSpan.FromMinutes(5) })
    {
        Timeout = Timeout.InfiniteTimeSpan,
        MaxResponseContentBufferSize = MostBytes,
    };

    public InfluxQuery(InfluxSettings settings, InfluxToken token)
    {
        (this.settings, this.token) = (settings, token);
        patience = new ResiliencePipelineBuilder().AddTimeout(settings.Timeout).Build();
    }

    /// <summary>Asks.</summary>
    /// <param name="statements">One or more statements, parted by semicolons.</param>
    /// <param name="columns">The columns that each series of the answer must have: something else that answers here is noticed.</param>
    /// <param name="cancellation">Stops waiting.</param>
    /// <exception cref="InfluxFaultException">There is no usable answer.</exception>
    public async Task<InfluxAnswer> AskAsync(string statements, string[] columns, CancellationToken cancellation)
    {
        try
        {
            return await patience.ExecuteAsync(async waiting => await SendAsync(statements, columns, waiting), cancellation);
        }
        catch (Exception failed) when (failed is HttpRequestException or TimeoutRejectedException or IOException or JsonException or InvalidOperationException)
        {
            var cause = failed switch
            {
                TimeoutRejectedException => $"no answer within {settings.TimeoutSeconds} s",
                JsonException or InvalidOperationException => "what it answers is no result of InfluxQL",
                _ => failed.Message,
            };
            throw InfluxFaultException.NoAnswer(settings, cause, failed);
        }
    }

    public void Dispose() => http.Dispose();

    private async Task<InfluxAnswer> SendAsync(string statements, string[] columns, CancellationToken cancellation)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, new Uri(new Uri(settings.Url.TrimEnd('/') + "/"), "query"))
        {
            Content = new FormUrlEncodedContent(Form(statements)),
        };
        if (token.Value is { Length: > 0 } value)
        {
            request.Headers.Authorization = new AuthenticationHeaderValue("Token", value);
        }

        using var response = await http.SendAsync(request, HttpCompletionOption.ResponseContentRead, cancellation);
        var body = await response.Content.ReadAsByteArrayAsync(cancellation);
        if (!response.IsSuccessStatusCode)
        {
            throw Refusal(response, body);
        }

        var answer = new InfluxAnswer(JsonDocument.Parse(body));
        try
        {
            Check(answer, columns);
            return answer;
        }
        catch
        {
            answer.Dispose();
            throw;
        }
    }

    private IEnumerable<KeyValuePair<string, string>> Form(string statements)
    {
        yield return new("q", statements);
        yield return new("db", settings.ReadDatabase);
        yield return new("epoch", "ms");
        if (settings.ReadPolicy.Length > 0)
        {
            yield return new("rp", settings.ReadPolicy);
        }
    }

    private InfluxFaultException Refusal(HttpResponseMessage response, byte[] body)
    {
        var status = (int)response.StatusCode;
        if (status is 401 or 403)
        {
            token.ReadAgain();
        }

        var said = response.Headers.TryGetValues("X-Influxdb-Error", out var header) ? string.Join(' ', header) : Words(body);
        return InfluxFaultException.Of(settings, status, said, retryAfter: response.Headers.RetryAfter?.Delta);
    }

    private void Check(InfluxAnswer answer, string[] columns)
    {
        if (answer.Error is { } error)
        {
            throw InfluxFaultException.Of(settings, error.Contains("not found", StringComparison.Ordinal) ? 404 : 500, error);
        }

        if (answer.IsPartial)
        {
            throw InfluxFaultException.Of(settings, 500, "it leaves rows out; set max-row-limit = 0 in its configuration");
        }

        if (answer.Tables.Any(table => !table.Columns.SequenceEqual(columns)))
        {
            throw InfluxFaultException.NoAnswer(settings, "what answers there does not read InfluxQL", null);
        }
    }

    private static string Words(byte[] body)
    {
        try
        {
            using var document = JsonDocument.Parse(body);
            return document.RootElement.TryGetProperty("error", out var error) || document.RootElement.TryGetProperty("message", out error)
                ? error.ToString()
                : "";
        }
        catch (Exception wrong) when (wrong is JsonException or InvalidOperationException)
        {
            return System.Text.Encoding.UTF8.GetString(body.AsSpan(0, Math.Min(body.Length, 300)));
        }
    }
}
