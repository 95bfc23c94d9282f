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

    /// <summary>The body with two fields set by the address it was sent to; an unreadable body is returned as it is, for the decoder to refuse.</summary>
    public static async Task<ReadOnlyMemory<byte>> WithAsync(
        HttpRequest request, (string Name, string Value) first, (string Name, string Value) second, CancellationToken cancellation)
    {
        var bytes = await ReadAsync(request, cancellation);
        try
        {
            if (JsonNode.Parse(bytes.Span) is JsonObject body)
            {
                body[first.Name] = first.Value;
                body[second.Name] = second.Value;
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
