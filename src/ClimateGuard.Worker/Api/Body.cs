using System.Text.Json;
using System.Text.Json.Nodes;

namespace ClimateGuard.Worker.Api;

/// <summary>Reads request bodies; Kestrel bounds their size.</summary>
internal static class Body
{
    public static async Task<ReadOnlyMemory<byte>> ReadAsync(HttpRequest request, CancellationToken cancellation)
    {
        using var body = new MemoryStream();
        await request.Body.CopyToAsync(body, cancellation);
        return body.ToArray();
    }

    /// <summary>The body with fields set by the address it was sent to; an unreadable body is returned as it is, for the decoder to refuse.</summary>
    public static async Task<ReadOnlyMemory<byte>> WithAsync(
        HttpRequest request, CancellationToken cancellation, params (string Name, string Value)[] set)
    {
        var bytes = await ReadAsync(request, cancellation);
        try
        {
            if (JsonNode.Parse(bytes.Span) is JsonObject body)
            {
                foreach (var (name, value) in set) body[name] = value;
                return JsonSerializer.SerializeToUtf8Bytes(body);
            }
        }
        catch (JsonException)
        {
            return bytes;
        }

        return bytes;
    }
}
