namespace ClimateGuard.Thermal;

/// <summary>What of a chosen model the record can really show, and why not in plain words.</summary>
internal sealed record DriftFitIdentifiability(DriftFitOutcome Outcome, string Reason, int ModesShown)
{
    /// <summary>Environment time constants below this are called fast: head, column, covers (common practice, no source).</summary>
    public const double FastBelowHours = 3.0;

    // Chi-square with one degree of freedom, 95 %.
    private const double LikelihoodLimit = 3.84;

    /// <summary>Judges a chosen model that has modes.</summary>
    public static DriftFitIdentifiability Of(DriftFitAnalysis analysis)
    {
        var (design, options) = (analysis.Design, analysis.Options);
        var taus = analysis.Chosen.TauHours;
        var two = taus.Length == 2;
        if (Obstacle(analysis, taus[^1]) is { } obstacle)
        {
            return two && taus[0] < FastBelowHours && Shortfall(design, options, taus[0]) is null
                ? new(DriftFitOutcome.SlowModeNotIdentified, $"slow mode not identified: {obstacle}", 1)
                : new(DriftFitOutcome.SlowModeNotIdentified, $"no mode identified: {obstacle}", 0);
        }

        if (two)
        {
            return Shortfall(design, options, taus[0]) is { } fast
                ? new(DriftFitOutcome.NotIdentified, $"fast mode not identified: {fast}", 0)
                : new(DriftFitOutcome.TwoModes, "a fast and a slow mode were identified", 2);
        }

        // One mode that is fast: would the record have shown a slow one beside it?
        var assumed = options.SlowPrior?.TimeConstant ?? DriftFitResult.PriorTimeConstant;
        var blind = taus[0] < FastBelowHours ? Shortfall(design, options, assumed.TotalHours) : null;
        return blind is null
            ? new(DriftFitOutcome.OneMode, "one mode explains the record; it would have shown another", 1)
            : new(DriftFitOutcome.SlowModeNotIdentified, $"slow mode not identified: {blind}", 1);
    }

    /// <summary>How far a mode moved when driven by the recorded temperature alone, in K.</summary>
    public static double ExcitationKelvins(DriftFitDesign design, double tauHours)
    {
        var theta = new double[design.Rows];
        design.FillMode(tauHours, theta);
        var range = 0.0;
        for (var stretch = 0; stretch < design.Stretches; stretch++)
        {
            var part = theta.Where((_, row) => design.StretchOfRow[row] == stretch).ToArray();
            range = Math.Max(range, part.Max() - part.Min());
        }

        return range;
    }

    private static string? Obstacle(DriftFitAnalysis analysis, double tauHours)
    {
        var (design, search, choice, _, options) = analysis;
        if (Shortfall(design, options, tauHours) is { } shortfall)
        {
            return shortfall;
        }

        var longest = design.LongestHours / 2.0;
        var freedom = Math.Max(choice.EffectiveSize - search.Solver.Parameters(choice.Chosen.Model), 1.0);
        var limit = choice.Chosen.Squares * (1.0 + (LikelihoodLimit / freedom));
        foreach (var tau in new[] { longest, 2.0 * longest, options.SlowestTimeConstant.TotalHours })
        {
            if (tau >= tauHours && tau <= options.SlowestTimeConstant.TotalHours
                && search.SquaresWithSlow(choice.Chosen.Model, tau) <= limit)
            {
                return FormattableString.Invariant(
                    $"a time constant of {tau:0.0} h explains the record as well as {tauHours:0.0} h does; ")
                    + FormattableString.Invariant($"{design.LongestHours:0.0} h cannot tell them apart");
            }
        }

        return null;
    }

    private static string? Shortfall(DriftFitDesign design, DriftFitOptions options, double tauHours)
    {
        if (design.LongestHours < 2.0 * tauHours)
        {
            return FormattableString.Invariant(
                $"the record lasts {design.LongestHours:0.0} h without a gap; a time constant of {tauHours:0.0} h needs {2.0 * tauHours:0.0} h");
        }

        var moved = ExcitationKelvins(design, tauHours);
        return moved >= options.MinimumExcitation.Value
            ? null
            : FormattableString.Invariant(
                $"a mode of {tauHours:0.0} h moved only {moved:0.0#} K; {options.MinimumExcitation.Value:0.0#} K are needed");
    }
}
