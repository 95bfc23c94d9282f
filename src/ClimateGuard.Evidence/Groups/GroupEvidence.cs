namespace ClimateGuard.Evidence;

/// <summary>What all inspected parts of one feature say together.</summary>
/// <remarks>
/// One x for a feature, fixed by the physics before anything is looked at; measured on predicted with a level for each machine, standard error by
/// episode. Statistics that the data do not carry are null, never a number without meaning.
/// </remarks>
public sealed record GroupEvidence
{
    /// <summary>The fewest parts of which a line is fitted.</summary>
    public const int FewestParts = 4;

    /// <summary>Part number.</summary>
    public required string Part { get; init; }

    /// <summary>Id of the feature.</summary>
    public required string Feature { get; init; }

    /// <summary>The parts, by the time they were cut.</summary>
    public required IReadOnlyList<GroupPoint> Points { get; init; }

    /// <summary>Number of independent episodes.</summary>
    public int Episodes => Points.Select(point => point.Episode).Distinct(StringComparer.Ordinal).Count();

    /// <summary>Slope of measured on predicted with its tests against 0 and 1, or null.</summary>
    public SlopeTest? Slope { get; init; }

    /// <summary>The part of the deviation that is there without any temperature, in µm, or null.</summary>
    public Estimate? Intercept { get; init; }

    /// <summary>What the prediction explains of the variance, in [0, 1], or NaN.</summary>
    public double RSquared { get; init; } = double.NaN;

    /// <summary>What the naive air exposure explains of it, in [0, 1], or NaN.</summary>
    public double NaiveRSquared { get; init; } = double.NaN;

    /// <summary>The slope with errors in both (York), or null.</summary>
    public LineFit? BothErrors { get; init; }

    /// <summary>Agreement of signs, or null where nothing has a sign.</summary>
    public SignAgreementResult? Signs { get; init; }

    /// <summary>Exchange of the episodes, or null with fewer than two.</summary>
    public PermutationResult? Permutation { get; init; }

    /// <summary>The exposure of the next episode as a control that must not react, or null with too few episodes.</summary>
    public NegativeControl? Future { get; init; }

    /// <summary>Mean outcome by thirds of the exposure, or null.</summary>
    public DoseGradientResult? Dose { get; init; }

    /// <summary>Out of tolerance against beyond the budget.</summary>
    public required TwoByTwo Table { get; init; }

    /// <summary>Fisher's exact test of that table; mid-p beside it.</summary>
    public required FisherResult Fisher { get; init; }

    /// <summary>Risk ratio of that table, or null without exposed or other parts.</summary>
    public LogRatio? Risk { get; init; }

    /// <summary>The same by machine, or null with one machine.</summary>
    public StratifiedResult? ByMachine { get; init; }

    /// <summary>Correlation ratio of the prediction with each recorded variable.</summary>
    public required IReadOnlyList<GroupConfounder> Confounders { get; init; }

    /// <summary>Recorded variables by which what is left without temperature differs; empty where nothing has a sign.</summary>
    public IReadOnlyList<GroupDifference> Differences { get; init; } = [];

    /// <summary>Capability with and without the thermal part, or null; of a position with its sign along the scale only.</summary>
    public ThermalShareResult? Capability { get; init; }

    /// <summary>Adjusted p of the exploratory look at slopes of other exposures (Benjamini–Hochberg, q = 0.10).</summary>
    public MultipleTestingResult? Exploratory { get; init; }

    /// <summary>How many more parts a slope with a standard error of 0.15 needs, or null.</summary>
    public int? PartsNeeded { get; init; }

    /// <summary>What the prediction cannot be told from, or null.</summary>
    public string? CannotBeToldFrom => Confounders.FirstOrDefault(confounder => confounder.CannotBeSeparated) is { } found
        ? found.CorrelationRatio > Confounding.Limit ? found.Name
            : FormattableString.Invariant($"{found.Name}: {found.LeftOut} of {Episodes} episodes set them apart, in the others the prediction follows it (correlation {found.WithoutFew:0.00})")
        : null;

    /// <summary>The group test alone is independent evidence: right size, an exchange of episodes below 0.05, and a clean control.</summary>
    public bool Confirms => Slope is { Finding: SlopeFinding.ConsistentInSize } && Permutation is { Decidable: true, PValue: < PermutationResult.Level }
        && Future is { Finding: ControlFinding.Clean };
}

/// <summary>A recorded variable against the prediction; equality is by value.</summary>
/// <param name="Name">Shift, operator, tool, program, device or batch.</param>
/// <param name="CorrelationRatio">η, corrected for the number of groups, in [0, 1].</param>
/// <param name="WithoutFew">The same without the few episodes that set the two apart most, in [0, 1].</param>
/// <param name="LeftOut">How many episodes those are.</param>
/// <param name="CannotBeSeparated">Above 0.8 with or without them: the data cannot tell the two apart.</param>
public sealed record GroupConfounder(string Name, double CorrelationRatio, double WithoutFew, int LeftOut, bool CannotBeSeparated);

/// <summary>A recorded variable by which the deviation without its predicted part differs: another cause that is there.</summary>
/// <param name="Name">Shift, operator, tool, program, device or batch.</param>
/// <param name="PValue">Of "no difference" (one-way analysis of variance), times the number of variables looked at (Bonferroni), in [0, 1].</param>
/// <param name="MeanRest">Mean rest of the parts of each label less that of the others, in µm.</param>
public sealed record GroupDifference(string Name, double PValue, IReadOnlyDictionary<string, double> MeanRest);
