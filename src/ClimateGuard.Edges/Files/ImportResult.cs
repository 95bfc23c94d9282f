using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Files;

/// <summary>What an import of one file came to.</summary>
/// <param name="path">The file.</param>
public sealed class ImportResult(string path)
{
    private const int MostListed = 100;

    private readonly long[] rows = new long[Enum.GetValues<Trust>().Length];
    private readonly List<string> skipped = [];

    /// <summary>The file.</summary>
    public string Path { get; } = path;

    /// <summary>The line after which it went on, 0 when it began with the first.</summary>
    public long GoesOnAfterLine { get; internal set; }

    /// <summary>How many rows were given to the store this time.</summary>
    public long Rows => rows.Sum();

    /// <summary>Of them as they came.</summary>
    public long Accepted => rows[(int)Trust.Accepted];

    /// <summary>Of them after a correction.</summary>
    public long Corrected => rows[(int)Trust.Corrected];

    /// <summary>Of them set aside.</summary>
    public long Quarantined => rows[(int)Trust.Quarantined];

    /// <summary>How many rows had no value.</summary>
    public long WithoutValue { get; internal set; }

    /// <summary>How many bad rows were passed over.</summary>
    public long Skipped { get; private set; }

    /// <summary>The first hundred of them, each with its place and what is allowed.</summary>
    public IReadOnlyList<string> SkippedRows => skipped;

    /// <summary>The bad row at which it stopped, with its place and what is allowed, or null.</summary>
    public string? Problem { get; internal set; }

    /// <summary>It was stopped from outside.</summary>
    public bool Stopped { get; internal set; }

    /// <summary>The file was read to its end.</summary>
    public bool Done { get; internal set; }

    internal void Count(InputBatch batch, bool skipping)
    {
        foreach (ref readonly var row in batch.Rows.Span)
        {
            rows[(int)row.Trust]++;
        }

        if (!skipping || batch.Problem is not { } problem)
        {
            return;
        }

        Skipped++;
        if (skipped.Count < MostListed)
        {
            skipped.Add(problem);
        }
    }
}

/// <summary>How far an import is.</summary>
/// <param name="Doing">What it does.</param>
/// <param name="Share">How much of the file was read, in [0, 1].</param>
/// <param name="Rows">Rows so far.</param>
public readonly record struct ImportProgress(string Doing, double Share, long Rows);
