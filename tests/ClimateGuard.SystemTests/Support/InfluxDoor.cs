using System.Net;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.WebUtilities;
using Microsoft.Extensions.Logging;

namespace ClimateGuard.SystemTests.Support;

/// <summary>
/// Stands before an InfluxDB 1: writes <c>/api/v2/write?org=&amp;bucket=db/rp&amp;precision=</c> as <c>/write?db=&amp;rp=&amp;precision=</c> and
/// passes <c>/query</c> on. Counts the writes, and can answer in its place.
/// </summary>
public sealed class InfluxDoor : IAsyncDisposable
{
    private readonly HttpClient http = new();
    private readonly Uri behind;
    private readonly WebApplication app;
    private int writes;

    private InfluxDoor(Uri behind, WebApplication app) => (this.behind, this.app) = (behind, app);

    public Uri Address => new(app.Urls.First());

    /// <summary>How many writes were passed on.</summary>
    public int Writes => writes;

    /// <summary>Answers a write in the place of InfluxDB when it is not null.</summary>
    public (int Status, string Words, string? RetryAfter)? Instead { get; set; }

    /// <summary>Passes writes on, and then breaks the connection instead of saying so, so often.</summary>
    public int AnswersToLose { get; set; }

    public static async Task<InfluxDoor> OpenAsync(Uri behind)
    {
        var builder = WebApplication.CreateBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        builder.WebHost.ConfigureKestrel(kestrel => kestrel.Limits.MaxRequestBodySize = null);
        var app = builder.Build();
        var door = new InfluxDoor(behind, app);
        app.MapPost("/api/v2/write", door.WriteAsync);
        app.MapPost("/query", context => door.PassAsync(context, "/query", tell: true));
        await app.StartAsync();
        return door;
    }

    public async ValueTask DisposeAsync()
    {
        await app.DisposeAsync();
        http.Dispose();
    }

    private async Task WriteAsync(HttpContext context)
    {
        if (Instead is var (status, words, retryAfter))
        {
            context.Response.StatusCode = status;
            if (retryAfter is not null)
            {
                context.Response.Headers.RetryAfter = retryAfter;
            }

            await context.Response.WriteAsJsonAsync(new { code = "x", message = words });
            return;
        }

        var lose = AnswersToLose > 0;
        AnswersToLose -= lose ? 1 : 0;
        var bucket = context.Request.Query["bucket"].ToString().Split('/', 2);
        await PassAsync(context, QueryHelpers.AddQueryString("/write", new Dictionary<string, string?>
        {
            ["db"] = bucket[0],
            ["rp"] = bucket[1],
            ["precision"] = context.Request.Query["precision"],
        }), tell: !lose);
        Interlocked.Increment(ref writes);
        if (lose)
        {
            context.Abort();
        }
    }

    private async Task PassAsync(HttpContext context, string path, bool tell)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, new Uri(behind, path)) { Content = new StreamContent(context.Request.Body) };
        if (context.Request.ContentType is { } type)
        {
            request.Content.Headers.TryAddWithoutValidation("Content-Type", type);
        }

        // InfluxDB 1.6 knows user and password, no tokens.
        if (context.Request.Headers.Authorization.ToString() is { Length: > 6 } token)
        {
            request.Headers.TryAddWithoutValidation("Authorization", "Basic " + Convert.ToBase64String(Encoding.UTF8.GetBytes(token["Token ".Length..])));
        }

        try
        {
            using var answer = await http.SendAsync(request, context.RequestAborted);
            if (!tell)
            {
                return;
            }

            context.Response.StatusCode = (int)answer.StatusCode;
            if (answer.Headers.TryGetValues("X-Influxdb-Error", out var words))
            {
                context.Response.Headers["X-Influxdb-Error"] = words.ToArray();
            }

            if (answer.StatusCode != HttpStatusCode.NoContent)
            {
                context.Response.ContentType = "application/json";
                await answer.Content.CopyToAsync(context.Response.Body);
            }
        }
        catch (HttpRequestException)
        {
            context.Abort();
        }
    }
}
