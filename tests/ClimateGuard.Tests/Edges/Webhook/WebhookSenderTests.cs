using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using ClimateGuard.Edges.Notices;
using ClimateGuard.Edges.Webhook;
using ClimateGuard.Watch;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Time.Testing;

namespace ClimateGuard.Tests.Edges.Webhook;

public sealed class WebhookSenderTests : IAsyncLifetime
{
    private const string Secret = "0123456789abcdef-shared";
    private static readonly CancellationToken None = CancellationToken.None;
    private static readonly DateTimeOffset Morning = new(2026, 3, 2, 7, 0, 0, TimeSpan.Zero);

    private readonly List<(IHeaderDictionary Headers, byte[] Body)> received = [];
    private readonly FakeTimeProvider clock = new(Morning);
    private readonly string secretFile = Path.GetTempFileName();
    private WebApplication receiver = null!;
    private int status = 200;

    public async ValueTask InitializeAsync()
    {
        await File.WriteAllTextAsync(secretFile, Secret + "\n");
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        receiver = builder.Build();
        receiver.MapPost("/hook", async context =>
        {
            using var body = new MemoryStream();
            await context.Request.Body.CopyToAsync(body);
            received.Add((new HeaderDictionary(context.Request.Headers.ToDictionary()), body.ToArray()));
            context.Response.StatusCode = status;
            if (status is >= 300 and < 400)
            {
                context.Response.Headers.Location = "/elsewhere";
            }
            else if (status >= 400)
            {
                await context.Response.WriteAsync("not\r\nnow");
            }
        });
        receiver.MapPost("/elsewhere", () => received.Add((new HeaderDictionary(), [])));
        await receiver.StartAsync();
    }

    public async ValueTask DisposeAsync()
    {
        await receiver.DisposeAsync();
        File.Delete(secretFile);
    }

    [Fact]
    public async Task A_notice_arrives_as_json_with_its_key_and_a_signature_that_the_receiver_can_check()
    {
        using var sender = Sender();
        await sender.SendAsync(Notice(), None);

        var (headers, body) = Assert.Single(received);
        Assert.Equal("cell4.notice.x.1", headers["Idempotency-Key"]);
        Assert.Equal(Morning.ToUnixTimeSeconds().ToString(CultureInfo.InvariantCulture), headers["X-ClimateGuard-Timestamp"]);
        Assert.Equal(Signature(headers["X-ClimateGuard-Timestamp"]!, body), headers["X-ClimateGuard-Signature"].ToString());
        Assert.Equal("application/json; charset=utf-8", headers.ContentType);
        var json = JsonDocument.Parse(body).RootElement;
        Assert.Equal("cell4.notice.x.1", json.GetProperty("key").GetString());
        Assert.Equal("opened", json.GetProperty("kind").GetString());
        Assert.Equal("µm", json.GetProperty("lines")[0].GetString());
    }

    [Fact]
    public async Task A_changed_body_or_time_stamp_does_not_match_the_signature()
    {
        using var sender = Sender();
        await sender.SendAsync(Notice(), None);

        var (headers, body) = received[0];
        body[^2] ^= 1;
        Assert.NotEqual(Signature(headers["X-ClimateGuard-Timestamp"]!, body), headers["X-ClimateGuard-Signature"].ToString());
        body[^2] ^= 1;
        Assert.NotEqual(Signature("1772434801", body), headers["X-ClimateGuard-Signature"].ToString());
    }

    [Fact]
    public async Task A_later_try_is_signed_with_its_own_time_and_carries_the_same_key_and_body()
    {
        using var sender = Sender();
        status = 503;
        await Assert.ThrowsAsync<DeliveryFailedException>(() => sender.SendAsync(Notice(), None));
        status = 204;
        clock.Advance(TimeSpan.FromHours(1));
        await sender.SendAsync(Notice(), None);

        Assert.Equal(received[0].Body, received[1].Body);
        Assert.Equal(received[0].Headers["Idempotency-Key"], received[1].Headers["Idempotency-Key"]);
        Assert.NotEqual(received[0].Headers["X-ClimateGuard-Signature"], received[1].Headers["X-ClimateGuard-Signature"]);
    }

    [Fact]
    public async Task A_new_secret_is_used_without_a_restart()
    {
        using var sender = Sender();
        await sender.SendAsync(Notice(), None);
        await File.WriteAllTextAsync(secretFile, "another-secret-of-16-bytes");
        await sender.SendAsync(Notice(), None);
        Assert.NotEqual(received[0].Headers["X-ClimateGuard-Signature"], received[1].Headers["X-ClimateGuard-Signature"]);
    }

    [Theory]
    [InlineData(400, true, "answers 400: not  now.")]
    [InlineData(401, false, "answers 401: not  now. Check that both sides have the secret of Webhook:SecretFile, and the clocks.")]
    [InlineData(422, true, "answers 422: not  now.")]
    [InlineData(429, false, "answers 429: not  now.")]
    [InlineData(500, false, "answers 500: not  now.")]
    [InlineData(302, false, "answers 302. It points elsewhere, and a signed message does not follow: write the final address in Webhook:Url.")]
    public async Task Any_answer_but_2xx_is_a_failure_with_what_to_check(int answer, bool forGood, string words)
    {
        status = answer;
        using var sender = Sender();
        var failed = await Assert.ThrowsAsync<DeliveryFailedException>(() => sender.SendAsync(Notice(), None));
        Assert.Equal(forGood, failed.ForGood);
        Assert.EndsWith(words, failed.Message, StringComparison.Ordinal);
        Assert.Single(received);
    }

    [Fact]
    public async Task A_receiver_that_is_not_there_is_said_so_without_the_token_of_its_address()
    {
        var url = receiver.Urls.First();
        await receiver.StopAsync();
        using var sender = new WebhookSender(Settings() with { Url = $"{url}/hook?token=abc" }, clock);
        var failed = await Assert.ThrowsAsync<DeliveryFailedException>(() => sender.SendAsync(Notice(), None));
        Assert.StartsWith($"{url}/hook cannot be reached: ", failed.Message, StringComparison.Ordinal);
        Assert.DoesNotContain("abc", failed.Message, StringComparison.Ordinal);
    }

    private static string Signature(string stamp, byte[] body)
    {
        byte[] signed = [.. Encoding.UTF8.GetBytes(stamp + "."), .. body];
        return "sha256=" + Convert.ToHexStringLower(HMACSHA256.HashData(Encoding.UTF8.GetBytes(Secret), signed));
    }

    private static Notice Notice() => TestNotice.Of("cell4.notice.x.1", "here", Morning) with { Kind = NoticeKind.Opened, Lines = ["µm"] };

    private WebhookSettings Settings() => new() { Url = $"{receiver.Urls.First()}/hook", SecretFile = secretFile };

    private WebhookSender Sender() => new(Settings(), clock);
}
