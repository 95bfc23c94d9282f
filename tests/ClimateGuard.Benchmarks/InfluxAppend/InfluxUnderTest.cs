using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;

namespace ClimateGuard.Benchmarks.InfluxAppend;

/// <summary>An influxd 1.6.7 of its own and the door before it that it needs: it does not know <c>/api/v2/write</c>.</summary>
internal static class InfluxUnderTest
{
    public static async Task RunAsync()
    {
        var folder = Directory.CreateTempSubdirectory("climateguard-bench-influx-").FullName;
        var (port, rpc) = (FreePort(), FreePort());
        var url = $"http://127.0.0.1:{port}";
        await File.WriteAllTextAsync(Path.Combine(folder, "conf"), $"""
            reporting-disabled = true
            bind-address = "127.0.0.1:{rpc}"
            [meta]
              dir = "{folder}/meta"
            [data]
              dir = "{folder}/data"
              wal-dir = "{folder}/wal"
            [http]
              bind-address = "127.0.0.1:{port}"
              log-enabled = false
            [monitor]
              store-enabled = false

            """);
        using var influxd = Process.Start(new ProcessStartInfo("/bin/sh", ["-c", $"exec influxd -config {folder}/conf > {folder}/log 2>&1"]))!;
        using var http = new HttpClient();
        try
        {
            await UntilItAnswersAsync(http, url);
            await http.PostAsync($"{url}/query", new FormUrlEncodedContent([new("q", "CREATE DATABASE bench")]));
            await using var door = await DoorAsync(http, url);
            await InfluxAppendBench.RunAsync(url, door.Urls.First(), "bench");
        }
        finally
        {
            influxd.Kill();
            await influxd.WaitForExitAsync();
            Directory.Delete(folder, recursive: true);
        }
    }

    private static async Task<WebApplication> DoorAsync(HttpClient http, string url)
    {
        var builder = WebApplication.CreateBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        var door = builder.Build();
        door.MapPost("/{**path}", async (HttpContext context) =>
        {
            var path = context.Request.Path == "/query" ? "/query" : $"/write?db=bench&precision={context.Request.Query["precision"]}";
            using var request = new HttpRequestMessage(HttpMethod.Post, url + path) { Content = new StreamContent(context.Request.Body) };
            request.Content.Headers.TryAddWithoutValidation("Content-Type", context.Request.ContentType);
            using var answer = await http.SendAsync(request);
            context.Response.StatusCode = (int)answer.StatusCode;
            if (answer.StatusCode != HttpStatusCode.NoContent)
            {
                await answer.Content.CopyToAsync(context.Response.Body);
            }
        });
        await door.StartAsync();
        return door;
    }

    private static async Task UntilItAnswersAsync(HttpClient http, string url)
    {
        for (var patience = 0; ; patience++)
        {
            try
            {
                using var answer = await http.GetAsync($"{url}/ping");
                return;
            }
            catch (HttpRequestException) when (patience < 200)
            {
                await Task.Delay(50);
            }
        }
    }

    private static int FreePort()
    {
        using var probe = new TcpListener(IPAddress.Loopback, 0);
        probe.Start();
        return ((IPEndPoint)probe.LocalEndpoint).Port;
    }
}
