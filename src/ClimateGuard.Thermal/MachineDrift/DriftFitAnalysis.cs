namespace ClimateGuard.Thermal;

/// <summary>One drift test under analysis: what all later questions look at.</summary>
internal sealed record DriftFitAnalysis(
    DriftFitDesign Design, DriftFitSearch Search, DriftFitChoice Choice, DriftFitValidation? Validation, DriftFitOptions Options)
{
    /// <summary>The chosen model.</summary>
    public DriftFitEstimate Chosen => Choice.Chosen;

    /// <summary>Compares all models on a record and foretells later blocks.</summary>
    public static DriftFitAnalysis Of(DriftFitDesign design, DriftFitOptions options)
    {
        design.Keep(DriftFitSearch.Grid(options));
        var search = new DriftFitSearch(
            new DriftFitSolver(design, options.FitInitialState, new DriftFitRows(0, design.Rows)), options);
        return new(design, search, DriftFitChoice.Of(search, options), DriftFitRollingOrigin.Run(design, options), options);
    }
}
