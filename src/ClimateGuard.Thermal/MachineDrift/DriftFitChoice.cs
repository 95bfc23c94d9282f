namespace ClimateGuard.Thermal;

/// <summary>The model chosen among all, the best that knows no temperature, and the table they were chosen from.</summary>
internal sealed record DriftFitChoice(
    DriftFitEstimate Chosen, DriftFitEstimate WithoutTemperature, IReadOnlyList<DriftFitCandidate> Candidates, double EffectiveSize)
{
    /// <summary>
    /// The lowest criterion wins, but a model with modes must beat the best without by the asked-for gain, and two modes must beat one by
    /// the same.
    /// </summary>
    public static DriftFitChoice Of(DriftFitSearch search, DriftFitOptions options)
    {
        var (ranked, size) = search.Compare();
        var without = Best(ranked, 0);
        var chosen = without;
        for (var modes = 1; modes <= 2; modes++)
        {
            var richer = Best(ranked, modes);
            if (richer.Fit is not null && richer.Bic < chosen.Bic - options.MinimumBicGain)
            {
                chosen = richer;
            }
        }

        DriftFitCandidate[] table =
        [
            .. ranked.Select(pair => new DriftFitCandidate(
                pair.Fit.Model,
                search.Solver.Parameters(pair.Fit.Model),
                Math.Sqrt(pair.Fit.Squares / search.Solver.Rows),
                pair.Bic)),
        ];
        return new DriftFitChoice(chosen.Fit!, without.Fit!, table, size);
    }

    private static (DriftFitEstimate? Fit, double Bic) Best(IReadOnlyList<(DriftFitEstimate Fit, double Bic)> ranked, int modes) =>
        ranked.FirstOrDefault(pair => DriftFitSolver.Modes(pair.Fit.Model) == modes);
}
