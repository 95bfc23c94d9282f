namespace ClimateGuard.Enclosure;

/// <summary>How likely each cause is before anything is seen: shares by kind of cause, moved by the causes the site has verified.</summary>
/// <remarks>Start values of domain knowledge (common practice, no source); one verified cause counts as much as a tenth of them. Immutable.</remarks>
public sealed class CausePriors
{
    /// <summary>The share of windows in which anything is wrong, before the site has told (common practice, no source).</summary>
    public const double AnyProblem = 0.15;

    private const double StartWeight = 10;
    private static readonly Dictionary<CauseClass, double> Shares = new()
    {
        [CauseClass.Control] = 0.25,
        [CauseClass.Envelope] = 0.20,
        [CauseClass.Load] = 0.15,
        [CauseClass.AirFlow] = 0.12,
        [CauseClass.Cooling] = 0.12,
        [CauseClass.Sensor] = 0.10,
        [CauseClass.Other] = 0.06,
    };

    private readonly Dictionary<string, int> verified;

    /// <summary>Priors without any history.</summary>
    public static CausePriors Start { get; } = new([]);

    private CausePriors(Dictionary<string, int> verified) => this.verified = verified;

    /// <summary>Priors after one more case was closed with its verified cause.</summary>
    /// <param name="causeId">F01 to F34.</param>
    public CausePriors Closed(string causeId) =>
        new(new Dictionary<string, int>(verified) { [causeId] = verified.GetValueOrDefault(causeId) + 1 });

    /// <summary>ln(p/(1 − p)) of a cause before anything is seen.</summary>
    public double LogOdds(FaultCause cause)
    {
        ArgumentNullException.ThrowIfNull(cause);
        var share = Shares[cause.Class] / Catalogue.All.Count(other => other.Class == cause.Class);
        var moved = ((share * StartWeight) + verified.GetValueOrDefault(cause.Id)) / (StartWeight + verified.Values.Sum());
        var p = Math.Clamp(AnyProblem * moved, 1e-6, 0.5);
        return Math.Log(p / (1 - p));
    }
}
