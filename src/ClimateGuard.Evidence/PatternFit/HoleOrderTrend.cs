namespace ClimateGuard.Evidence;

/// <summary>Holes are a time series: does the scale of a pattern grow while it is cut?</summary>
/// <remarks>
/// dᵢ = t + (s₀ + ṡ·τᵢ)·r'ᵢ + θ·J·r'ᵢ by least squares, τ the time of the cut from its mean. A part that warms while it is cut (coolant) shows
/// a scale that falls with time.
/// </remarks>
/// <param name="ScalePerStep">ṡ: change of scale in µm/m per unit of the times given.</param>
/// <param name="MeanScale">s₀: scale in µm/m at the mean of the times.</param>
/// <param name="PValue">Of "the scale does not change", two-sided, in [0, 1].</param>
public sealed record HoleOrderTrend(Estimate ScalePerStep, Estimate MeanScale, double PValue)
{
    /// <summary>Fits the trend.</summary>
    /// <param name="holes">Three or more with a known scatter, four or more without, in the order they were cut.</param>
    /// <param name="times">When each was cut, in minutes or any unit; null for the order 0, 1, 2, ….</param>
    /// <param name="knownScatterMicrometres">σ of one deviation along one axis, in µm, above 0; null to take it from the residuals.</param>
    /// <returns>The trend with its test.</returns>
    /// <exception cref="ArgumentException">There are too few holes, all lie at one place or at one time, or a list differs in length.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static HoleOrderTrend Of(
        IReadOnlyList<HoleDeviation> holes, IReadOnlyList<double>? times = null, double? knownScatterMicrometres = null)
    {
        var design = PatternDesign.Of(holes, knownScatterMicrometres is null ? 4 : 3);
        times ??= [.. Enumerable.Range(0, holes.Count).Select(i => (double)i)];
        EvidenceInput.Sample(times, 0);
        EvidenceInput.SameLength(holes.Count, times.Count, nameof(holes), nameof(times));
        var mean = Univariate.CentralMean(times);
        var length = Math.Sqrt(Univariate.SumOfSquares(times, mean));
        if (length == 0) throw new ArgumentException("All holes were cut at one time, so there is no trend.", nameof(times));
        double[] clock = [.. times.Select(time => (time - mean) / length)];
        var solution = design.Solve(
            [design.TranslationX, design.TranslationY, design.Scale, design.Rotation, design.Times(design.Scale, clock)], nameof(holes));
        var (sigma, freedom) = solution.Scatter(knownScatterMicrometres);
        Estimate At(int place, double unit) => new(
            solution.Coefficients[place] * unit, sigma * Math.Sqrt(solution.Inverse[place][place]) * unit, freedom);
        var perStep = At(4, 1000 / design.Spread / length);
        return new HoleOrderTrend(perStep, At(2, 1000 / design.Spread), perStep.PValue());
    }
}
