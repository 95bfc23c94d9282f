using ClimateGuard.Plant;

namespace ClimateGuard.Evidence;

/// <summary>The case for (or against) going from 100 % inspection of a feature to sampling: what is shown, what is not, and how much is still needed.</summary>
/// <remarks>
/// It judges evidence about temperature and stability; the plan itself, its numbers and who agrees to it belong to the control plan. All limits
/// are common practice without a source, unless said beside them.
/// </remarks>
public sealed record SamplingCase
{
    /// <summary>The share of parts out of tolerance that must be excluded, with 95 % confidence.</summary>
    public const double LargestShareOut = 0.01;

    /// <summary>The move across the band that must be excluded, as a share of the tolerance.</summary>
    public const double MarginShare = 0.10;

    /// <summary>How much of the temperature band must have been seen.</summary>
    public const double LeastBandSeen = 0.5;

    /// <summary>Shifts before limits of a chart are trusted: the 25 subgroups of the trade (common practice, no source).</summary>
    public const int FewestEpisodes = 25;

    /// <summary>The capability that must be reached, by its lower 95 % limit.</summary>
    public const double LeastPpk = 1.33;

    /// <summary>Part number.</summary>
    public required string Part { get; init; }

    /// <summary>Id of the feature.</summary>
    public required string Feature { get; init; }

    /// <summary>Parts whose temperature during the cut is known.</summary>
    public required int Parts { get; init; }

    /// <summary>Inspected parts that are left out as it is not.</summary>
    public required int LeftOut { get; init; }

    /// <summary>How many independent parts those are worth: parts of one shift are alike.</summary>
    public required double EffectiveParts { get; init; }

    /// <summary>Number of shifts.</summary>
    public required int Episodes { get; init; }

    /// <summary>The predicted effects that were seen, in µm.</summary>
    public required Interval Seen { get; init; }

    /// <summary>The effects that a permit allows: plus and minus the budget, in µm.</summary>
    public required Interval Band { get; init; }

    /// <summary>Mean deviation of each shift in the order of time, with limits; null with fewer than two.</summary>
    public IndividualsChart? Chart { get; init; }

    /// <summary>The mean deviation of each shift, in µm, in the order of time.</summary>
    public required IReadOnlyList<double> ShiftMeans { get; init; }

    /// <summary>What must be shown, and how it stands.</summary>
    public required IReadOnlyList<SamplingRequirement> Requirements { get; init; }

    /// <summary>What the requirements come to.</summary>
    public required SamplingAnswer Answer { get; init; }

    /// <summary>The answer as a sentence.</summary>
    public string Words => Answer switch
    {
        SamplingAnswer.StaysInspected => "Stays at 100 %: the part is critical. The numbers below are for its control chart, not for less inspection.",
        SamplingAnswer.No => $"No. The data speak against: {Names(RequirementState.Against)}.",
        SamplingAnswer.NotYet => $"Not yet. Not shown so far: {Names(RequirementState.NotYet)}.",
        _ => "A sampling plan may be proposed to those who own the control plan. Until they agree, each part is inspected.",
    };

    /// <summary>Judges a feature.</summary>
    /// <param name="part">Part number.</param>
    /// <param name="feature">The feature.</param>
    /// <param name="partClass">Class of the part; a critical one stays inspected.</param>
    /// <param name="parts">Its inspected parts, one or more, in any order, finite but for the air.</param>
    /// <param name="leftOut">Inspected parts without a known temperature, 0 or more.</param>
    /// <exception cref="ArgumentException">There is no part.</exception>
    public static SamplingCase Of(string part, Feature feature, PartClass partClass, IReadOnlyList<SamplingPart> parts, int leftOut = 0)
    {
        ArgumentNullException.ThrowIfNull(feature);
        ArgumentNullException.ThrowIfNull(parts);
        if (parts.Count == 0) throw new ArgumentException("A case for sampling rests on one part or more.", nameof(parts));
        var budget = feature.Budget.MicrometresFor(feature.ToleranceMillimetres);
        SamplingPart[] ordered = [.. parts.OrderBy(one => one.At).ThenBy(one => one.Machine, StringComparer.Ordinal)];
        double[][] shifts = [.. ordered.GroupBy(one => one.Episode, StringComparer.Ordinal).Select(group => group.Select(one => one.DeviationMicrometres).ToArray())];
        double[] means = [.. shifts.Select(Univariate.Mean)];
        var bare = new SamplingCase
        {
            Part = part, Feature = feature.Id, Parts = ordered.Length, LeftOut = leftOut, Episodes = shifts.Length, EffectiveParts = Effective(shifts, ordered.Length),
            Seen = new Interval(ordered.Min(one => one.PredictedMicrometres), ordered.Max(one => one.PredictedMicrometres)), Band = new Interval(-budget, budget),
            Chart = means.Length > 1 ? ControlCharts.Individuals(means) : null, ShiftMeans = means, Requirements = [], Answer = SamplingAnswer.NotYet,
        };
        var requirements = SamplingRules.Of(bare, feature, ordered);
        return bare with { Requirements = requirements, Answer = Together(requirements, partClass) };
    }

    private static SamplingAnswer Together(IReadOnlyList<SamplingRequirement> requirements, PartClass partClass) =>
        partClass == PartClass.Critical ? SamplingAnswer.StaysInspected
        : requirements.Any(one => one.State == RequirementState.Against) ? SamplingAnswer.No
        : requirements.Any(one => one.State == RequirementState.NotYet) ? SamplingAnswer.NotYet
        : SamplingAnswer.MayBeProposed;

    // Without two parts in any shift nothing is known of how alike parts of a shift are; then each shift has one part and counts as one.
    private static double Effective(double[][] shifts, int parts) => shifts.Length == 1 ? 1
        : parts == shifts.Length ? parts
        : EffectiveSampleSize.OfEpisodes(parts, (double)parts / shifts.Length, AnalysisOfVariance.OneWay(shifts).IntraclassCorrelation);

    private string Names(RequirementState state) => string.Join("; ", Requirements.Where(one => one.State == state).Select(one => one.Name));
}
