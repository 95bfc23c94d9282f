using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Text;
using ClimateGuard.Edges.Notices;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Webhook;

/// <summary>Posts notices as signed JSON.</summary>
public sealed class WebhookSender : IDisposable
{
    private const int MostOfAnswer = 200;

    private readonly WebhookSettings settings;
    private readonly TimeProvider time;
    private readonly HttpClient client;

    /// <summary>Makes a sender.</summary>
    /// <param name="settings">Settings without problems.</param>
    /// <param name="time">The clock of the wall, for the time stamp.</param>
    public WebhookSender(WebhookSettings settings, TimeProvider time)
    {
        this.settings = settings ?? throw new ArgumentNullException(nameof(settings));
        this.time = time ?? throw new ArgumentNullException(nameof(time));
        // A redirect would carry a signed message to an address nobody named. A name server that moves the host is noticed within minutes.
        client = new HttpClient(new SocketsHttpHandler
        {
            AllowAutoRedirect = false,
            UseCookies = false,
            ConnectTimeout = TimeSpan.FromSeconds(10),
            PooledConnectionLifetime = TimeSpan.FromMinutes(5),
        })
        {
            Timeout = TimeSpan.FromSeconds(30),
        };
        client.DefaultRequestHeaders.UserAgent.Add(new ProductInfoHeaderValue("ClimateGuard", null));
    }

    /// <summary>Posts one notice; when it returns the receiver has answered 2xx.</summary>
    /// <param name="notice">The notice.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <exception cref="DeliveryFailedException">The receiver did not take it; the message says why.</exception>
    public async Task SendAsync(Notice notice, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(notice);
        try
        {
            using var request = Request(notice);
            using var response = await client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead, cancellation);
            if (!response.IsSuccessStatusCode)
            {
                throw Refused(response.StatusCode, await StartOfAsync(response, cancellation));
            }
        }
        catch (HttpRequestException failure)
        {
            throw new DeliveryFailedException($"{settings.Shown} cannot be reached: {failure.Message} Check Webhook:Url and the network.", failure);
        }
        catch (IOException failure)
        {
            throw new DeliveryFailedException($"{settings.Shown}: {failure.Message}", failure);
        }
        catch (OperationCanceledException failure) when (!cancellation.IsCancellationRequested)
        {
            throw new DeliveryFailedException($"{settings.Shown} did not answer within {Words.Minutes(client.Timeout)}.", failure);
        }
    }

    /// <summary>Closes its connections.</summary>
    public void Dispose() => client.Dispose();

    private HttpRequestMessage Request(Notice notice)
    {
        var body = Encoding.UTF8.GetBytes(NoticeJson.Of(notice));
        // Signed anew with each try: the receiver judges the age of the try, and knows the message by its key.
        var stamp = time.GetUtcNow().ToUnixTimeSeconds();
        var request = new HttpRequestMessage(HttpMethod.Post, settings.Url) { Content = new ByteArrayContent(body) };
        request.Content.Headers.ContentType = new MediaTypeHeaderValue("application/json", "utf-8");
        request.Headers.Add(WebhookSignature.KeyHeader, notice.Key);
        request.Headers.Add(WebhookSignature.TimestampHeader, stamp.ToString(CultureInfo.InvariantCulture));
        request.Headers.Add(WebhookSignature.SignatureHeader, WebhookSignature.Of(SettingsFiles.FirstLine(settings.SecretFile), stamp, body));
        return request;
    }

    private DeliveryFailedException Refused(HttpStatusCode status, string answer)
    {
        var said = answer.Length > 0 ? $": {answer}" : "";
        var hint = status switch
        {
            HttpStatusCode.Unauthorized or HttpStatusCode.Forbidden => " Check that both sides have the secret of Webhook:SecretFile, and the clocks.",
            HttpStatusCode.NotFound => " Check Webhook:Url.",
            >= HttpStatusCode.Ambiguous and < HttpStatusCode.BadRequest => " It points elsewhere, and a signed message does not follow: write the final address in Webhook:Url.",
            _ => "",
        };
        return new DeliveryFailedException($"{settings.Shown} answers {(int)status}{said}.{hint}")
        {
            // These speak of this one message; every other answer may be mended on either side.
            ForGood = status is HttpStatusCode.BadRequest or HttpStatusCode.RequestEntityTooLarge or HttpStatusCode.UnsupportedMediaType
                or HttpStatusCode.UnprocessableEntity,
        };
    }

    private static async Task<string> StartOfAsync(HttpResponseMessage response, CancellationToken cancellation)
    {
        var buffer = new byte[MostOfAnswer];
        await using var stream = await response.Content.ReadAsStreamAsync(cancellation);
        var length = await stream.ReadAtLeastAsync(buffer, MostOfAnswer, throwOnEndOfStream: false, cancellation);
        return string.Concat(Encoding.UTF8.GetString(buffer, 0, length).Select(letter => char.IsControl(letter) ? ' ' : letter)).Trim();
    }
}
