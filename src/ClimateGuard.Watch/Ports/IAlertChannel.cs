namespace ClimateGuard.Watch;

/// <summary>A way to tell people and controls what was decided.</summary>
/// <remarks>A safe channel: its failure is reported and disturbs nothing else.</remarks>
public interface IAlertChannel
{
    /// <summary>The name in messages about the channel itself.</summary>
    string Name { get; }

    /// <summary>Tells what of these decisions the channel carries; the rest it leaves alone.</summary>
    /// <param name="decisions">Decisions already in the ledger, in order.</param>
    /// <param name="cancellation">Stops waiting.</param>
    ValueTask TellAsync(IReadOnlyList<Decision> decisions, CancellationToken cancellation);
}
