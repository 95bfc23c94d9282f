using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>What temperature may take of a feature's tolerance, and how that was got. A closed set of cases.</summary>
/// <remarks>
/// Shares are of <see cref="Feature.ToleranceMillimetres"/>: the half width of a plus-or-minus tolerance, the whole diameter of a position zone.
/// Equality by members; immutable.
/// </remarks>
public abstract record FeatureBudget
{
    /// <summary>A budget from residuals is never less than this share (common practice, no source).</summary>
    public const double FloorShare = 0.10;

    /// <summary>A budget from residuals is never more than this share (common practice, no source).</summary>
    public const double CapShare = 0.50;

    private protected FeatureBudget()
    {
    }

    /// <summary>The budget in force, in µm, positive.</summary>
    public required double Micrometres { get; init; }

    /// <summary>The tolerance it is taken from, in µm.</summary>
    public required double ToleranceMicrometres { get; init; }

    /// <summary>The budget as a share of the tolerance.</summary>
    public double Share => Micrometres / ToleranceMicrometres;

    /// <summary>How the budget was got, in plain words.</summary>
    public abstract string How { get; }

    /// <summary>The budget as the plant file states it: an amount, a share, or the share of the part's class when it states neither.</summary>
    /// <param name="feature">The feature; its tolerance is positive.</param>
    /// <param name="partClass">The class of its part.</param>
    /// <returns>A <see cref="StatedBudget"/>.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The tolerance or the budget is not a positive number.</exception>
    public static FeatureBudget Of(Feature feature, PartClass partClass)
    {
        var tolerance = ToleranceOf(feature);
        var (micrometres, how) = feature.Budget switch
        {
            { Micrometres: { } amount } => (amount, BudgetSource.Amount),
            { Share: { } share } => (share * tolerance, BudgetSource.Share),
            _ => (BudgetRule.DefaultShareFor(partClass) * tolerance, BudgetSource.Class),
        };
        FormulaInput.Positive(micrometres, "µm", "budget");
        return new StatedBudget(how) { Micrometres = micrometres, ToleranceMicrometres = tolerance };
    }

    /// <summary>The budget that the process leaves: what remains of the tolerance beside the spread that is not thermal.</summary>
    /// <remarks>
    /// Size, depth, distance: B = T/2 − |m| − 3·s. Position, coaxiality: B = 2·(T/2 − q99.7 of |d|). Floor 10 %, cap 50 % of the tolerance
    /// (common practice, no source).
    /// </remarks>
    /// <param name="feature">The feature; its tolerance is positive.</param>
    /// <param name="spread">What is left of its deviations after the predicted thermal part is taken off.</param>
    /// <returns>A <see cref="ResidualBudget"/>, or <see cref="NotHeldWithoutTemperature"/> when the formula gives less than the floor.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The tolerance is not a positive number.</exception>
    public static FeatureBudget FromResiduals(Feature feature, ResidualSpread spread)
    {
        ArgumentNullException.ThrowIfNull(spread);
        var tolerance = ToleranceOf(feature);
        var left = feature is PositionFeature or CoaxialityFeature
            ? 2 * ((tolerance / 2) - spread.Quantile997Micrometres)
            : tolerance - Math.Abs(spread.MeanMicrometres) - (3 * spread.StandardDeviationMicrometres);
        if (left < FloorShare * tolerance)
        {
            return new NotHeldWithoutTemperature(left) { Micrometres = FloorShare * tolerance, ToleranceMicrometres = tolerance };
        }

        return new ResidualBudget(left, spread.Count) { Micrometres = Math.Min(left, CapShare * tolerance), ToleranceMicrometres = tolerance };
    }

    /// <summary>How well this budget can be decided with an uncertainty: u/B.</summary>
    /// <param name="uMicrometres">Standard uncertainty of the effect, in µm, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The uncertainty is negative or not a number.</exception>
    public BudgetHealth Health(double uMicrometres) => BudgetHealth.Of(uMicrometres, Micrometres);

    private static double ToleranceOf(Feature feature)
    {
        ArgumentNullException.ThrowIfNull(feature);
        return FormulaInput.Positive(feature.ToleranceMillimetres, "mm", "tolerance") * 1000;
    }
}

/// <summary>A budget that someone stated.</summary>
/// <param name="Source">What was stated.</param>
public sealed record StatedBudget(BudgetSource Source) : FeatureBudget
{
    /// <inheritdoc/>
    public override string How => Source switch
    {
        BudgetSource.Amount => "stated as an amount",
        BudgetSource.Share => "stated as a share of the tolerance",
        _ => "not stated: the share of the part's class",
    };
}

/// <summary>What was stated of a budget.</summary>
public enum BudgetSource
{
    /// <summary>An amount in µm.</summary>
    Amount,

    /// <summary>A share of the tolerance.</summary>
    Share,

    /// <summary>Nothing: the share of the class of the part is used.</summary>
    Class,
}

/// <summary>A budget from what the process does without temperature.</summary>
/// <param name="LeftMicrometres">What the formula gave before the cap, in µm.</param>
/// <param name="Count">How many residuals it rests on.</param>
public sealed record ResidualBudget(double LeftMicrometres, int Count) : FeatureBudget
{
    /// <summary>Whether the cap of half the tolerance cut it.</summary>
    public bool Capped => LeftMicrometres > Micrometres;

    /// <inheritdoc/>
    public override string How => Capped ? "from the spread of residuals, cut to half the tolerance" : "from the spread of residuals";
}

/// <summary>The process cannot hold this feature even without temperature; the floor stands in, and holding will not help.</summary>
/// <param name="LeftMicrometres">What the formula gave, in µm, below the floor or negative.</param>
public sealed record NotHeldWithoutTemperature(double LeftMicrometres) : FeatureBudget
{
    /// <inheritdoc/>
    public override string How => "this feature cannot be held even without temperature: its other spread takes more than nine tenths of the tolerance";
}
