using System.Globalization;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>A worker, as its lease names it.</summary>
/// <param name="Host">Name of its computer.</param>
/// <param name="Process">Number of its process there.</param>
public sealed record LeaseOwner(string Host, int Process)
{
    /// <summary>This process.</summary>
    public static LeaseOwner Here { get; } = new(HostOfProcesses(), Environment.ProcessId);

    /// <summary>
    /// Whether this owner certainly runs no more: it was on this host, where process numbers mean the same as here, and no process has its
    /// number. A number that was given to another program since counts as running: the lease then ends by its term.
    /// </summary>
    public bool IsGone()
    {
        if (Host != Here.Host || Process == Here.Process)
        {
            return false;
        }

        try
        {
            using var found = System.Diagnostics.Process.GetProcessById(Process);
            return found.HasExited;
        }
        catch (ArgumentException)
        {
            return true;
        }
        catch (InvalidOperationException)
        {
            return true;
        }
    }

    /// <summary>The computer's name; in a container, whose process numbers are its own, with the mark of that container.</summary>
    private static string HostOfProcesses()
    {
        const string hostItself = "pid:[4026531836]";
        var space = File.ResolveLinkTarget("/proc/self/ns/pid", returnFinalTarget: false)?.Name;
        return space is null or hostItself ? Environment.MachineName : $"{Environment.MachineName}/{space}";
    }
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

/// <summary>A worker that asked for the lease while another held it.</summary>
/// <param name="Owner">Who asked.</param>
/// <param name="Time">When it first did.</param>
public sealed record RefusedClaim(LeaseOwner Owner, DateTimeOffset Time);

/// <summary>The answer to who asks for a lease.</summary>
/// <param name="Token">The token when it was given, or null.</param>
/// <param name="Holder">Who holds it now: the one who asked, or the one who is in the way.</param>
/// <param name="Before">Who held it before, when it was given after somebody who did not give it back; else null.</param>
public sealed record LeaseAnswer(long? Token, LeaseHolder Holder, LeaseHolder? Before);
