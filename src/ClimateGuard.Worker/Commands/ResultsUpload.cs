using System.Net.Http.Headers;
using System.Text.Json;

namespace ClimateGuard.Worker.Commands;

/// <summary>Hands a file of inspection results to a running worker, and reads what it says.</summary>
internal static class ResultsUpload
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    /// <summary>Posts the file; whether it was taken, and the answer as text.</summary>
    /// <param name="worker">Address of the worker.</param>
    /// <param name="file">The file, QIF or CSV.</param>
    /// <param name="cancellation">Ends it.</param>
    /// <param name="device">The device whose saved mapping reads the file, or null.</param>
    /// <param name="preview">Only say what would be taken in.</param>
    public static async Task<(bool Taken, string Text)> SendAsync(
        Uri worker, string file, CancellationToken cancellation, string? device = null, bool preview = false)
    {
        using var http = new HttpClient { Timeout = Patience };
        using var content = new ByteArrayContent(await File.ReadAllBytesAsync(file, cancellation));
        content.Headers.ContentType = new MediaTypeHeaderValue("application/octet-stream");
        var query = $"?preview={(preview ? "true" : "false")}{(device is null ? "" : "&device=" + Uri.EscapeDataString(device))}";
        using var answer = await http.PostAsync(new Uri(worker, "/api/v1/results" + query), content, cancellation);
        return (answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync(cancellation));
    }

    /// <summary>What was taken in, for people.</summary>
    public static string Words(string text)
    {
        using var said = JsonDocument.Parse(text);
        return $"{said.RootElement.GetProperty("values")} values taken, {said.RootElement.GetProperty("overridesScored")} overrides scored.";
    }

    /// <summary>Why it was refused, for people.</summary>
    public static string Refusal(string text)
    {
        using var said = JsonDocument.Parse(text.StartsWith('{') ? text : "{}");
        return said.RootElement.TryGetProperty("detail", out var detail) ? detail.GetString()! : "the worker refused it; nothing was imported.";
    }
}
