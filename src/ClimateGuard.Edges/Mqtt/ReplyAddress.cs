namespace ClimateGuard.Edges.Mqtt;

/// <summary>Where a control wants its answer: the response topic and correlation data of MQTT 5.</summary>
/// <param name="Topic">The response topic.</param>
/// <param name="Correlation">The correlation data to send back, or null.</param>
/// <param name="Until">After this nobody waits for the answer any more.</param>
internal sealed record ReplyAddress(string Topic, byte[]? Correlation, DateTimeOffset Until);
