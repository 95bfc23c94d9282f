using ClimateGuard.Watch;
using ClimateGuard.Worker.Pages.Words;

namespace ClimateGuard.Worker.Pages.Ruler;

/// <summary>Where everything stands on a budget ruler, in percent of its width; pure, so that a picture can be tested by numbers.</summary>
/// <remarks>
/// Zero is the middle. The scale is a fixed multiple of the budget, never of the data: so the budget marks stand at the same place in
/// every ruler of a page, rulers of different features can be compared at a glance, and nothing jumps when a value moves.
/// </remarks>
public sealed record RulerGeometry
{
    /// <summary>The scale reaches so many budgets to either side.</summary>
    public const double BudgetsShown = 2.5;

    private const double Middle = 50;
    private const double HalfScale = 45;
    private const double LeftEdge = 1;
    private const double RightEdge = 99;
    private const int MostTrailPoints = 24;

    private readonly double limit;

    private RulerGeometry(FeatureOutlook feature)
    {
        limit = BudgetsShown * feature.BudgetMicrometres;
        var effect = feature.EffectMicrometres;
        var reach = 2 * feature.UMicrometres;
        BudgetLow = At(-feature.BudgetMicrometres);
        BudgetHigh = At(feature.BudgetMicrometres);
        Ticks = TicksFor(limit);
        Segments = Bar(feature.MismatchMicrometres, effect, feature.BudgetMicrometres);
        Tip = At(effect);
        TipBeyond = Beyond(effect);
        WhiskerLow = At(effect - reach);
        WhiskerHigh = At(effect + reach);
        WhiskerLowOpen = Beyond(effect - reach) != 0;
        WhiskerHighOpen = Beyond(effect + reach) != 0;
        Trail = TrailOf(feature.TrailMicrometres);
    }

    /// <summary>The middle of the ruler.</summary>
    public double Zero => Middle;

    /// <summary>The mark of minus the budget.</summary>
    public double BudgetLow { get; }

    /// <summary>The mark of plus the budget.</summary>
    public double BudgetHigh { get; }

    /// <summary>The ticks, from left to right.</summary>
    public IReadOnlyList<RulerTick> Ticks { get; }

    /// <summary>The bar: mismatch from zero, then drift from there to the effect; cut at the budget marks, so that what lies outside can be shown.</summary>
    public IReadOnlyList<RulerSegment> Segments { get; }

    /// <summary>Where the effect stands.</summary>
    public double Tip { get; }

    /// <summary>−1 or 1 when the effect lies beyond the left or right end of the scale, else 0.</summary>
    public int TipBeyond { get; }

    /// <summary>Effect minus two standard uncertainties.</summary>
    public double WhiskerLow { get; }

    /// <summary>Effect plus two standard uncertainties.</summary>
    public double WhiskerHigh { get; }

    /// <summary>The whisker goes on beyond the left end.</summary>
    public bool WhiskerLowOpen { get; }

    /// <summary>The whisker goes on beyond the right end.</summary>
    public bool WhiskerHighOpen { get; }

    /// <summary>The effect over the coming cut, from begin to end; empty when not known.</summary>
    public IReadOnlyList<RulerTrailPoint> Trail { get; }

    /// <summary>The geometry of one feature, or null when a number is missing or the budget is not positive: then there is nothing to draw.</summary>
    public static RulerGeometry? TryOf(FeatureOutlook feature)
    {
        ArgumentNullException.ThrowIfNull(feature);
        var finite = double.IsFinite(feature.EffectMicrometres) && double.IsFinite(feature.MismatchMicrometres)
            && double.IsFinite(feature.UMicrometres) && double.IsFinite(feature.BudgetMicrometres);
        return finite && feature.UMicrometres >= 0 && feature.BudgetMicrometres > 0 ? new RulerGeometry(feature) : null;
    }

    /// <summary>The least of 1, 2, 5 times a power of ten that is not below a length.</summary>
    /// <param name="least">The length, above zero.</param>
    public static double NiceStep(double least)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(least);
        var power = Math.Pow(10, Math.Floor(Math.Log10(least)));
        foreach (var factor in (ReadOnlySpan<double>)[1, 2, 5])
        {
            // A hair of slack: 0.2 built from powers of ten is not exactly 0.2.
            if (factor * power >= least * (1 - 1e-9))
            {
                return factor * power;
            }
        }

        return 10 * power;
    }

    private static List<RulerTick> TicksFor(double limit)
    {
        var step = NiceStep(limit / 4.5);
        var most = (int)Math.Floor(limit / step * (1 + 1e-9));
        return [.. Enumerable.Range(-most, (2 * most) + 1).Select(i =>
            new RulerTick(i * step, Middle + (HalfScale * i * step / limit), Numbers.Plain(i * step)))];
    }

    private List<RulerSegment> Bar(double mismatch, double effect, double budget)
    {
        // Drift against mismatch runs back over it: probing again would make the effect larger, and the figure must show that.
        var turn = (effect - mismatch) * mismatch < 0 ? (effect * mismatch > 0 ? effect : 0) : mismatch;
        return
        [
            .. Split(0, mismatch, budget, RulerPart.Mismatch, false),
            .. Split(mismatch, turn, budget, RulerPart.Drift, true),
            .. Split(turn, effect, budget, RulerPart.Drift, false),
        ];
    }

    private List<RulerSegment> Split(double from, double to, double budget, RulerPart part, bool over)
    {
        var (low, high) = from <= to ? (from, to) : (to, from);
        var pieces = new List<RulerSegment>(3);
        Add(low, Math.Min(high, -budget), true);
        Add(Math.Max(low, -budget), Math.Min(high, budget), false);
        Add(Math.Max(low, budget), high, true);
        return pieces;

        void Add(double left, double right, bool outside)
        {
            if (right > left && At(right) > At(left))
            {
                pieces.Add(new RulerSegment(part, At(left), At(right) - At(left), outside, over));
            }
        }
    }

    private List<RulerTrailPoint> TrailOf(IReadOnlyList<double> trail)
    {
        if (trail.Count < 2)
        {
            return [];
        }

        var steps = Math.Min(trail.Count, MostTrailPoints) - 1;
        return [.. Enumerable.Range(0, steps + 1)
            .Select(i => (Share: (double)i / steps, Value: trail[(int)Math.Round((double)i * (trail.Count - 1) / steps)]))
            .Where(point => double.IsFinite(point.Value))
            .Select(point => new RulerTrailPoint(At(point.Value), point.Share))];
    }

    private double At(double micrometres) => Math.Clamp(Middle + (HalfScale * micrometres / limit), LeftEdge, RightEdge);

    private int Beyond(double micrometres)
    {
        var place = Middle + (HalfScale * micrometres / limit);
        return place < LeftEdge ? -1 : place > RightEdge ? 1 : 0;
    }
}

/// <summary>A tick of the ruler.</summary>
/// <param name="Micrometres">Its value.</param>
/// <param name="X">Its place, in percent.</param>
/// <param name="Label">Its words.</param>
public readonly record struct RulerTick(double Micrometres, double X, string Label);

/// <summary>A piece of the bar.</summary>
/// <param name="Part">Which part of the effect.</param>
/// <param name="X">Left end, in percent.</param>
/// <param name="Width">Width, in percent.</param>
/// <param name="Outside">Whether it lies outside the budget.</param>
/// <param name="Over">Whether it is drift that runs back over mismatch, and is drawn thin upon it.</param>
public readonly record struct RulerSegment(RulerPart Part, double X, double Width, bool Outside, bool Over);

/// <summary>A point of the trail.</summary>
/// <param name="X">Where the effect will be, in percent.</param>
/// <param name="Share">When, as a share of the cut in [0, 1].</param>
public readonly record struct RulerTrailPoint(double X, double Share);

/// <summary>The two parts of an effect.</summary>
public enum RulerPart
{
    /// <summary>Stays when the datum is probed again.</summary>
    Mismatch,

    /// <summary>Goes when the datum is probed again.</summary>
    Drift,
}
