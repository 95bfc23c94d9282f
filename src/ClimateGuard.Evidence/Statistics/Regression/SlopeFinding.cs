namespace ClimateGuard.Evidence;

/// <summary>What the slope of measured on predicted says. The prediction is right in size at 1 and says nothing at 0.</summary>
public enum SlopeFinding
{
    /// <summary>The interval holds 1 and not 0: consistent with the thermal prediction in size.</summary>
    ConsistentInSize,

    /// <summary>The interval holds neither: related, but the size is wrong (sensitivity, expansion or compensation off).</summary>
    RelatedButSizeWrong,

    /// <summary>The interval holds 0 and not 1: no relation of the predicted size.</summary>
    NoRelation,

    /// <summary>The interval holds both: data too few.</summary>
    DataTooFew,
}

/// <summary>The two tests of a slope of measured on predicted; equality is by value.</summary>
/// <param name="Slope">The slope with its standard error.</param>
/// <param name="Interval">At the confidence asked.</param>
/// <param name="PValueAgainstZero">Of "no relation", two-sided.</param>
/// <param name="PValueAgainstOne">Of "the size predicted", two-sided.</param>
/// <param name="Finding">What the interval says.</param>
public sealed record SlopeTest(Estimate Slope, Interval Interval, double PValueAgainstZero, double PValueAgainstOne, SlopeFinding Finding)
{
    /// <summary>Judges a slope against 0 and 1.</summary>
    /// <param name="slope">From a regression, by episode where parts share one, or from a fit with errors in both.</param>
    /// <param name="confidence">Of the interval, in (0, 1).</param>
    /// <returns>Interval, both tests, and what they say together.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The confidence lies outside (0, 1).</exception>
    public static SlopeTest Of(Estimate slope, double confidence = 0.95)
    {
        var interval = slope.Interval(confidence);
        var finding = (interval.Contains(0), interval.Contains(1)) switch
        {
            (false, true) => SlopeFinding.ConsistentInSize,
            (false, false) => SlopeFinding.RelatedButSizeWrong,
            (true, false) => SlopeFinding.NoRelation,
            _ => SlopeFinding.DataTooFew,
        };
        return new SlopeTest(slope, interval, slope.PValue(), slope.PValue(1), finding);
    }
}
