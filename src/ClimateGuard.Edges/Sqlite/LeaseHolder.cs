using System.Globalization;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>A worker, as its lease names it.</summary>
/// <param name="Host">Name of its computer.</param>
/// <param name="Process">Number of its process there.</param>
public sealed record LeaseOwner(string Host, int Process)
{
    /// <summary>This process.</summary>
    public static LeaseOwner Here { get; } = new(Environment.MachineName, Environment.ProcessId);
}

/// <summary>Who holds a lease.</summary>
/// <param name="Token">Its token.</param>
/// <param name="Owner">Who.</param>
/// <param name="Since">Since when, by the wall clock.</param>
/// <param name="Until">Until when without a renewal, by the wall clock.</param>
public sealed record LeaseHolder(long Token, LeaseOwner Owner, DateTimeOffset Since, DateTimeOffset Until)
{
    /// <summary>Such as <c>Process 4711 on cnc-pc (since 2026-03-02 06:00:00Z)</c>.</summary>
    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture, $"Process {Owner.Process} on {Owner.Host} (since {Since.UtcDateTime:u})");
}

/// <summary>The answer to who asks for a lease.</summary>
/// <param name="Token">The token when it was given, or null.</param>
/// <param name="Holder">Who holds it now: the one who asked, or the one who is in the way.</param>
/// <param name="Before">Who held it before, when it was given after somebody who did not give it back; else null.</param>
public sealed record LeaseAnswer(long? Token, LeaseHolder Holder, LeaseHolder? Before);
