using System.Runtime.CompilerServices;

namespace ClimateGuard.Watch;

/// <summary>Ways to read a ledger that are the same for each store.</summary>
public static class LedgerReading
{
    /// <summary>The most lines that a store gives in one answer.</summary>
    public const int MostLines = 10_000;

    private const int Page = 2_000;

    /// <summary>The newest lines, newest first.</summary>
    /// <param name="ledger">The ledger.</param>
    /// <param name="kind">Only this kind, or null for all.</param>
    /// <param name="machine">Only this machine, or null for all.</param>
    /// <param name="most">At most so many, in [1, 10 000].</param>
    /// <param name="cancellation">Stops waiting.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="most"/> is outside its range.</exception>
    public static ValueTask<IReadOnlyList<LedgerEntry>> NewestAsync(
        this ILedgerStore ledger, string? kind, string? machine, int most, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(ledger);
        return ledger.ReadBackAsync(kind, machine, long.MaxValue, most, cancellation);
    }

    /// <summary>All lines in order, page by page.</summary>
    /// <param name="ledger">The ledger.</param>
    /// <param name="afterSeq">Those after this number; 0 begins at the first.</param>
    /// <param name="cancellation">Stops waiting.</param>
    public static async IAsyncEnumerable<LedgerEntry> AllAsync(
        this ILedgerStore ledger, long afterSeq, [EnumeratorCancellation] CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(ledger);
        IReadOnlyList<LedgerEntry> page;
        do
        {
            page = await ledger.ReadAsync(afterSeq, Page, cancellation);
            foreach (var entry in page)
            {
                yield return entry;
                afterSeq = entry.Seq;
            }
        }
        while (page.Count == Page);
    }

    /// <summary>Follows the whole chain of a ledger.</summary>
    /// <param name="ledger">The ledger.</param>
    /// <param name="cellId">Id of the cell.</param>
    /// <param name="known">A head noted earlier, or null.</param>
    /// <param name="cancellation">Stops waiting.</param>
    public static async Task<LedgerVerdict> VerifyAsync(
        this ILedgerStore ledger, string cellId, LedgerHead? known, CancellationToken cancellation)
    {
        var check = new LedgerCheck(cellId, known);
        await foreach (var entry in ledger.AllAsync(0, cancellation))
        {
            check.Take(entry);
        }

        return check.Finish();
    }
}
