namespace ClimateGuard.Edges.Mqtt;

/// <summary>How the connection to the broker stands.</summary>
/// <param name="Connected">Connected and subscribed.</param>
/// <param name="Since">Since when it is so.</param>
/// <param name="Host">Where the broker is looked for.</param>
/// <param name="Port">Its port.</param>
/// <param name="LastError">Why the last attempt failed or the last connection ended, with what to check; null when nothing failed yet.</param>
public sealed record BrokerState(bool Connected, DateTimeOffset Since, string Host, int Port, string? LastError);
