namespace ClimateGuard.Edges.Sqlite;

/// <summary>How full the disk of the store is, looked at every few seconds and not for each reading. Safe across threads.</summary>
/// <param name="folder">The folder of the store.</param>
/// <param name="reserveBytes">Free space that is left to the ledger; on a small disk at most a tenth of it.</param>
/// <param name="clock">Its monotonic time.</param>
public sealed class DiskSpace(string folder, long reserveBytes, TimeProvider clock)
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(5);

    private readonly Lock gate = new();
    private long lookedAt;
    private Found? found;
    private bool stopped;

    /// <summary>Used share of the disk in [0, 1], or null when it cannot be told.</summary>
    public double? UsedShare => Look() is { Total: > 0 } now ? 1 - ((double)now.Free / now.Total) : null;

    /// <summary>Whether readings may be written: stops below the reserve, and goes on when there is a quarter more.</summary>
    public bool AllowsReadings
    {
        get
        {
            var now = Look();
            lock (gate)
            {
                var reserve = Math.Min(reserveBytes, now.Total / 10);
                stopped = now.Total > 0 && now.Free < (stopped ? reserve + (reserve / 4) : reserve);
                return !stopped;
            }
        }
    }

    private Found Look()
    {
        lock (gate)
        {
            if (found is { } known && clock.GetElapsedTime(lookedAt) < Pause)
            {
                return known;
            }

            lookedAt = clock.GetTimestamp();
            try
            {
                var drive = new DriveInfo(Path.GetFullPath(folder));
                found = new Found(drive.TotalSize, drive.AvailableFreeSpace);
            }
            catch (Exception fault) when (fault is IOException or UnauthorizedAccessException or ArgumentException)
            {
                found = new Found(0, 0);
            }

            return found.Value;
        }
    }

    private readonly record struct Found(long Total, long Free);
}
