namespace ClimateGuard.Evidence;

/// <summary>How far a deviation moves when an exposure goes from the middle of its band to the edge; equality is by value.</summary>
/// <remarks>
/// The slope by episode, a level for each machine, times half of the band. That it does not matter is shown by its 90 % interval lying inside of a
/// margin (two one-sided tests at 5 %: Schuirmann, Journal of Pharmacokinetics and Biopharmaceutics 15 (1987) 657, from memory); a slope that merely
/// is not significant shows nothing.
/// </remarks>
/// <param name="MoveMicrometres">The move, in µm.</param>
/// <param name="Interval">Its 90 % interval, in µm.</param>
/// <param name="ScatterMicrometres">Scatter of the values about the line, in µm.</param>
/// <param name="SpreadOfExposure">Standard deviation of the exposure, in its own unit.</param>
/// <param name="HalfBand">Half of the band, in the unit of the exposure.</param>
public sealed record BandEffect(double MoveMicrometres, Interval Interval, double ScatterMicrometres, double SpreadOfExposure, double HalfBand)
{
    private const double Confidence = 0.90;
    private const double OneSided = 1.645;

    /// <summary>Fits it.</summary>
    /// <param name="parts">The parts.</param>
    /// <param name="exposure">Their exposures, as many, finite.</param>
    /// <param name="values">What is to move, in µm, as many.</param>
    /// <param name="halfBand">Half of the band, in the unit of the exposure, 0 or more.</param>
    /// <returns>The move, or null where the data carry no line.</returns>
    public static BandEffect? Of(IReadOnlyList<SamplingPart> parts, IReadOnlyList<double> exposure, IReadOnlyList<double> values, double halfBand)
    {
        ArgumentNullException.ThrowIfNull(parts);
        ArgumentNullException.ThrowIfNull(exposure);
        string[] machines = [.. parts.Select(part => part.Machine).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];
        string[] episodes = [.. parts.Select(part => part.Episode)];
        if (parts.Count < GroupEvidence.FewestParts + machines.Length - 1 || exposure.Max() - exposure.Min() <= 1e-9 || episodes.Distinct(StringComparer.Ordinal).Count() < 3) return null;
        IReadOnlyList<double>[] columns =
        [
            exposure, .. machines.Skip(1).Select(machine => (IReadOnlyList<double>)parts.Select(part => part.Machine == machine ? 1.0 : 0).ToArray()),
        ];
        try
        {
            var fit = LinearRegression.Fit(columns, values);
            var slope = fit.CoefficientByEpisode(1, columns, [.. episodes.Select(name => Array.IndexOf(episodes, name))]);
            var interval = slope.Interval(Confidence);
            return new BandEffect(
                slope.Value * halfBand, new Interval(interval.Low * halfBand, interval.High * halfBand), fit.ResidualStandardDeviation, Univariate.StandardDeviation(exposure), halfBand);
        }
        catch (ArgumentException)
        {
            // A machine whose parts all had one exposure leaves a column that depends on the others.
            return null;
        }
    }

    /// <summary>Whether the move is shown to stay within a margin, to go beyond it, or neither.</summary>
    /// <param name="marginMicrometres">The margin, in µm, above 0.</param>
    public RequirementState Within(double marginMicrometres) =>
        Interval.Low > -marginMicrometres && Interval.High < marginMicrometres ? RequirementState.Met
        : Interval.Low > marginMicrometres || Interval.High < -marginMicrometres ? RequirementState.Against
        : RequirementState.NotYet;

    /// <summary>How many independent parts tell on which side of the margin the move lies, if it is what it looks like; null when more than can be inspected.</summary>
    /// <param name="marginMicrometres">The margin, in µm, above 0.</param>
    public int? PartsFor(double marginMicrometres)
    {
        const double most = 1e5;
        var room = Math.Abs(EvidenceInput.Positive(marginMicrometres) - Math.Abs(MoveMicrometres));
        if (!(ScatterMicrometres > 0) || !(HalfBand > 0)) return null;
        var wanted = room / OneSided / HalfBand;
        var root = ScatterMicrometres / SpreadOfExposure / wanted;
        return root * root <= most ? SampleSize.ForSlope(ScatterMicrometres, SpreadOfExposure, wanted) : null;
    }
}
