using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>What a drift test says of one axis of a machine.</summary>
public sealed record DriftFitResult
{
    /// <summary>The time constant assumed of a slow mode that the record cannot show; common practice, no source.</summary>
    public static readonly TimeSpan PriorTimeConstant = TimeSpan.FromHours(8);

    /// <summary>The size of S assumed of such a mode, in µm/K, with the sign against the fast mode; common practice, no source.</summary>
    public const double PriorMicrometresPerKelvin = 6.0;

    /// <summary>The axis.</summary>
    public required Axis Axis { get; init; }

    /// <summary>The outcome.</summary>
    public required DriftFitOutcome Outcome { get; init; }

    /// <summary>The outcome in a sentence, with the numbers it rests on.</summary>
    public required string Reason { get; init; }

    /// <summary>What else a person should know before using it; empty when there is nothing.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }

    /// <summary>The modes that were identified, fast before slow.</summary>
    public required IReadOnlyList<FittedDriftMode> Modes { get; init; }

    /// <summary>What stands in for the slow mode when it was not identified, else null.</summary>
    public DriftMode? SlowPrior { get; init; }

    /// <summary>The sum of S, in µm/K: what a lasting change of 1 K does in the end. Null unless all modes were identified.</summary>
    public double? TotalMicrometresPerKelvin { get; init; }

    /// <summary>Range of the sum of S over the bootstrap, in µm/K, or null.</summary>
    public DriftInterval? TotalInterval { get; init; }

    /// <summary>d0: displacement of the machine at rest at 20 °C, in µm, in the longest stretch; null when nothing was fitted.</summary>
    public double? OffsetMicrometres { get; init; }

    /// <summary>
    /// Standard deviation of what the chosen model leaves unexplained in single samples, in µm; null when nothing was fitted.
    /// </summary>
    public double? ResidualStandardDeviationMicrometres { get; init; }

    /// <summary>How many independent means over analysis steps the residuals are worth; 0 when nothing was fitted.</summary>
    public required double EffectiveSampleSize { get; init; }

    /// <summary>Means over analysis steps that were fitted; 0 when nothing was fitted.</summary>
    public required int StepCount { get; init; }

    /// <summary>How far the recorded temperature moved (means over analysis steps).</summary>
    public required Kelvins AirRange { get; init; }

    /// <summary>The longest stretch without a gap.</summary>
    public required TimeSpan Duration { get; init; }

    /// <summary>All explanations that were compared, best first; empty when the air moved too little.</summary>
    public required IReadOnlyList<DriftFitCandidate> Candidates { get; init; }

    /// <summary>The comparison on blocks not seen by the fit, or null when the record is too short for it.</summary>
    public DriftFitValidation? Validation { get; init; }

    /// <summary>
    /// The modes for a machine's description: fitted ones, and the assumed slow one where it was not identified. Empty when the machine's
    /// stated modes should stay as they are.
    /// </summary>
    public IReadOnlyList<DriftMode> ToDriftModes()
    {
        var modes = Modes.Select(mode => new DriftMode(
            Axis, mode.SensitivityMicrometresPerKelvin, mode.TimeConstant, mode.RelativeUncertainty, Provenance.Fitted));
        return SlowPrior is null ? [.. modes] : [.. modes, SlowPrior];
    }
}
