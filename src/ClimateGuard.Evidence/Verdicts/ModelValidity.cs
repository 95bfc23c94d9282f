using ClimateGuard.Plant;

namespace ClimateGuard.Evidence;

/// <summary>One measurement that the model had predicted before it was taken; equality is by value.</summary>
/// <param name="Time">When.</param>
/// <param name="Machine">Id of the machine.</param>
/// <param name="Serial">The part on it, or empty.</param>
/// <param name="Operation">Its operation, or empty.</param>
/// <param name="Kind"><c>reprobe x</c>, <c>span</c> or <c>contact</c>.</param>
/// <param name="Predicted">What the model said just before, in µm (contact: °C).</param>
/// <param name="UPredicted">Its standard uncertainty.</param>
/// <param name="Measured">What was measured.</param>
/// <param name="UMeasured">Its standard uncertainty.</param>
public sealed record ModelCheck(
    DateTimeOffset Time, string Machine, string Serial, string Operation, string Kind, double Predicted, double UPredicted, double Measured, double UMeasured)
{
    /// <summary>Both uncertainties together.</summary>
    public double U => double.Hypot(UPredicted, UMeasured);

    /// <summary>The measured value lies within two standard uncertainties of the predicted one.</summary>
    public bool Agrees => Math.Abs(Measured - Predicted) <= 2 * U;

    /// <summary>Something was there to be seen: what was measured stands out of its own uncertainty (of a contact, from the 20 °C the model did not need).</summary>
    public bool Shows => Math.Abs(Kind == "contact" ? Measured - 20 : Measured) > 2 * UMeasured;
}

/// <summary>How far the model of one machine may be trusted: what stands before every verdict.</summary>
public sealed record ModelValidity
{
    /// <summary>So many of the last checks are shown.</summary>
    public const int MostShown = 30;

    /// <summary>A check older than this says nothing any more; common practice, no source.</summary>
    public static readonly TimeSpan GoodFor = TimeSpan.FromDays(90);

    /// <summary>More structural events (levelling, crash, spindle change) than this since the last check make the model stale.</summary>
    public const int MostStructuralEvents = 2;

    // Two standard uncertainties should hold 95 of 100; below 70 something is wrong with the model, once there are enough to say so.
    private const double LeastCoverage = 0.7;
    private const int EnoughForCoverage = 5;

    /// <summary>Id of the machine.</summary>
    public required string Machine { get; init; }

    /// <summary>The last checks, newest first.</summary>
    public required IReadOnlyList<ModelCheck> Checks { get; init; }

    /// <summary>Share of the checks that agree, in [0, 1]; NaN without any.</summary>
    public required double Coverage { get; init; }

    /// <summary>Mean of measured minus predicted of the re-probes, in µm; NaN without any.</summary>
    public required double BiasMicrometres { get; init; }

    /// <summary>Where the drift of the machine comes from.</summary>
    public required string DriftSource { get; init; }

    /// <summary>Why it may not be trusted, or null.</summary>
    public required string? NotValidBecause { get; init; }

    /// <summary>It was held against measurements and agrees.</summary>
    public bool Valid => NotValidBecause is null;

    /// <summary>Judges the model of a machine.</summary>
    /// <param name="machine">The machine.</param>
    /// <param name="checks">Checks of any machine, in any order.</param>
    /// <param name="at">The moment of the work that is judged.</param>
    /// <param name="structuralEvents">Structural events of the machine since the newest check.</param>
    public static ModelValidity Of(Machine machine, IEnumerable<ModelCheck> checks, DateTimeOffset at, int structuralEvents = 0)
    {
        ArgumentNullException.ThrowIfNull(machine);
        var own = Newest(checks.Where(check => check.Machine == machine.Id));
        double[] drifts = [.. own.Where(check => check.Kind.StartsWith("reprobe", StringComparison.Ordinal)).Select(check => check.Measured - check.Predicted)];
        var coverage = own.Length > 0 ? own.Count(check => check.Agrees) / (double)own.Length : double.NaN;
        return new ModelValidity
        {
            Machine = machine.Id,
            Checks = own,
            Coverage = coverage,
            BiasMicrometres = drifts.Length > 0 ? drifts.Average() : double.NaN,
            DriftSource = machine.Drift.Count == 0 ? "no drift described" : string.Join(", ", machine.Drift.Select(mode => Word(mode.Provenance)).Distinct()),
            NotValidBecause = Why(own, coverage, at, structuralEvents),
        };
    }

    /// <summary>The checks that count of all of a machine, newest first.</summary>
    internal static ModelCheck[] Newest(IEnumerable<ModelCheck> ofMachine) => [.. ofMachine.OrderByDescending(check => check.Time).Take(MostShown)];

    private static string? Why(ModelCheck[] own, double coverage, DateTimeOffset at, int structuralEvents)
    {
        if (own.Length == 0) return "no re-probe, span probe or contact temperature of this machine is recorded";
        if (!own.Any(check => (at - check.Time).Duration() <= GoodFor)) return $"no check within 90 days of the cut; the nearest is of {own.MinBy(check => (at - check.Time).Duration())!.Time.UtcDateTime:yyyy-MM-dd}";
        if (structuralEvents > MostStructuralEvents) return $"{structuralEvents} structural events since the last check";
        return own.Length >= EnoughForCoverage && coverage < LeastCoverage
            ? FormattableString.Invariant($"only {coverage:P0} of {own.Length} checks agree with what was predicted") : null;
    }

    private static string Word(Provenance provenance) => provenance switch
    {
        Provenance.Measured => "measured",
        Provenance.Fitted => "fitted",
        _ => "default",
    };
}
