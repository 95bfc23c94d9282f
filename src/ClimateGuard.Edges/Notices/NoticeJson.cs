using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Notices;

/// <summary>Notices as JSON: one form for the outbox and for the webhook; and what a policy remembers.</summary>
/// <remarks>
/// Fields of a notice: <c>key, goesOnFrom, cell, kind (opened, edited, followedUp, closed, digest, test), time, since, priority (low, medium,
/// high), cause, machines[], affectedJobs, subject, lines[], action, opens[], closes[]</c>; times are RFC 3339.
/// </remarks>
public static class NoticeJson
{
    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web)
    {
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
    };

    /// <summary>A notice as JSON.</summary>
    public static string Of(Notice notice) => JsonSerializer.Serialize(notice, Options);

    /// <summary>A notice from JSON that we wrote.</summary>
    /// <exception cref="JsonException">It is not such a text.</exception>
    public static Notice NoticeFrom(string json) => JsonSerializer.Deserialize<Notice>(json, Options) ?? throw new JsonException("null is no notice");

    /// <summary>What a policy remembers, as JSON.</summary>
    public static string Of(NoticeState state) => JsonSerializer.Serialize(state, Options);

    /// <summary>What a policy remembers, from JSON that we wrote.</summary>
    /// <exception cref="JsonException">It is not such a text.</exception>
    public static NoticeState StateFrom(string json) => JsonSerializer.Deserialize<NoticeState>(json, Options) ?? throw new JsonException("null is no state");
}
