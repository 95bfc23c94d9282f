using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>How a drift test is fitted. The defaults suit a record of one to four days at one sample a minute.</summary>
public sealed record DriftFitOptions
{
    /// <summary>What the air does between two samples.</summary>
    public InputHold Hold { get; init; } = InputHold.PiecewiseLinear;

    /// <summary>A longer silence than this, above zero, starts the modes anew, with a warning.</summary>
    public TimeSpan MaximumGap { get; init; } = TimeSpan.FromMinutes(30);

    /// <summary>A stretch between two gaps that is shorter than this is left out, with a warning.</summary>
    public TimeSpan ShortestStretch { get; init; } = TimeSpan.FromHours(2);

    /// <summary>
    /// The fit works on means over steps of this length, above zero; the modes themselves follow every sample, so the means cost no
    /// exactness, only the noise inside a step. Lengthened when a record would have more than 2 000 steps.
    /// </summary>
    public TimeSpan AnalysisStep { get; init; } = TimeSpan.FromMinutes(5);

    /// <summary>The shortest time constant that is looked for, above zero.</summary>
    public TimeSpan FastestTimeConstant { get; init; } = TimeSpan.FromMinutes(6);

    /// <summary>The longest time constant that is looked for; gantries reach 12 h to 60 h (common practice, no source).</summary>
    public TimeSpan SlowestTimeConstant { get; init; } = TimeSpan.FromHours(60);

    /// <summary>Time constants in the first, log-spaced search, in [4, 200].</summary>
    public int GridPoints { get; init; } = 24;

    /// <summary>
    /// Fit where the modes stood when the record began, too. Without it they are taken to have been at rest at the first temperature,
    /// which biases the slow mode when they were not.
    /// </summary>
    public bool FitInitialState { get; init; } = true;

    /// <summary>
    /// The least movement of a mode's own temperature that can show its sensitivity, above 0 K (common practice, no source).
    /// </summary>
    public Kelvins MinimumExcitation { get; init; } = new(0.5);

    /// <summary>
    /// How much lower the Bayes information criterion of a model with modes must be than that of the best without, 0 or more; more than
    /// 6 is "strong" (Kass and Raftery 1995, from memory).
    /// </summary>
    public double MinimumBicGain { get; init; } = 6.0;

    /// <summary>
    /// The share by which the fit must beat the simplest forecast on held-out blocks, in [0, 1); common practice, no source.
    /// </summary>
    public double MinimumImprovement { get; init; } = 0.10;

    /// <summary>What to assume of a slow mode that the record cannot show, or null for ±6 µm/K against the fast mode at 8 h.</summary>
    public DriftMode? SlowPrior { get; init; }

    /// <summary>Replicates of the block bootstrap, in [20, 100 000].</summary>
    public int BootstrapReplicates { get; init; } = 200;

    /// <summary>The share of the replicates that an interval holds, in (0, 1).</summary>
    public double Confidence { get; init; } = 0.95;

    /// <summary>Throws when a setting lies outside its range.</summary>
    internal void Check()
    {
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(MaximumGap, TimeSpan.Zero, nameof(MaximumGap));
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(ShortestStretch, TimeSpan.Zero, nameof(ShortestStretch));
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(AnalysisStep, TimeSpan.Zero, nameof(AnalysisStep));
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(FastestTimeConstant, TimeSpan.Zero, nameof(FastestTimeConstant));
        ArgumentOutOfRangeException.ThrowIfLessThan(SlowestTimeConstant, 10.0 * FastestTimeConstant, nameof(SlowestTimeConstant));
        ArgumentOutOfRangeException.ThrowIfLessThan(GridPoints, 4, nameof(GridPoints));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(GridPoints, 200, nameof(GridPoints));
        ArgumentOutOfRangeException.ThrowIfLessThan(BootstrapReplicates, 20, nameof(BootstrapReplicates));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(BootstrapReplicates, 100_000, nameof(BootstrapReplicates));
        RequireShare(MinimumExcitation.Value > 0.0 && double.IsFinite(MinimumExcitation.Value), nameof(MinimumExcitation), "above 0 K");
        RequireShare(MinimumBicGain >= 0.0 && double.IsFinite(MinimumBicGain), nameof(MinimumBicGain), "0 or more");
        RequireShare(MinimumImprovement is >= 0.0 and < 1.0, nameof(MinimumImprovement), "in [0, 1)");
        RequireShare(Confidence is > 0.0 and < 1.0, nameof(Confidence), "in (0, 1)");
    }

    private static void RequireShare(bool holds, string name, string allowed)
    {
        if (!holds)
        {
            throw new ArgumentOutOfRangeException(name, $"{name} must be a number {allowed}.");
        }
    }
}
