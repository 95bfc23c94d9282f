using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>Sensitivities and time constants of a machine's structure from a drift test.</summary>
/// <remarks>
/// D(t) = Σ Sⱼ·θⱼ(t) + d0, dθⱼ/dt = (T − 20 − θⱼ)/τⱼ, j = fast, slow, signs free: with opposite signs the answer to a step reverses,
/// which one exponential cannot show. Separable least squares (variable projection, Golub and Pereyra 1973, from memory); none, one or
/// two modes by the Bayes information criterion against explanations that know no temperature; ranges by a block bootstrap of the
/// residuals; later blocks foretold and compared with the simplest forecasts. A record in which something else moves the machine
/// (spindle, axes, coolant, sun on a column) breaks the model: see the residuals and the validation.
/// </remarks>
public static class DriftFit
{
    // Nobody's drift test fixes a sensitivity better than this: the machine is not the model. Common practice, no source.
    private const double LeastRelativeUncertainty = 0.02;
    private const double UnknownRelativeUncertainty = 1.0;

    // Held by DriftMode as what to assume of an S without a stated uncertainty.
    private const double UnstatedRelativeUncertainty = 0.3;
    private const double FewBlocks = 5.0;

    /// <summary>Fits one axis without ranges: every S carries the relative uncertainty 0.3.</summary>
    /// <param name="record">The drift test.</param>
    /// <param name="axis">One of its axes.</param>
    /// <param name="options">How to fit.</param>
    /// <returns>The outcome; a record that shows nothing is an outcome, not an error.</returns>
    /// <exception cref="ArgumentException">The axis was not recorded, or no stretch without a gap is long enough.</exception>
    /// <exception cref="ArgumentOutOfRangeException">An option lies outside its range.</exception>
    public static DriftFitResult Fit(DriftTestRecord record, Axis axis, DriftFitOptions options) => Run(record, axis, options, null);

    /// <summary>Fits one axis with ranges from a block bootstrap.</summary>
    /// <param name="record">The drift test.</param>
    /// <param name="axis">One of its axes.</param>
    /// <param name="options">How to fit.</param>
    /// <param name="random">Seeded chance for the bootstrap; the same seed gives the same ranges.</param>
    /// <returns>The outcome; a record that shows nothing is an outcome, not an error.</returns>
    /// <exception cref="ArgumentException">The axis was not recorded, or no stretch without a gap is long enough.</exception>
    /// <exception cref="ArgumentOutOfRangeException">An option lies outside its range.</exception>
    public static DriftFitResult Fit(DriftTestRecord record, Axis axis, DriftFitOptions options, Random random)
    {
        ArgumentNullException.ThrowIfNull(random);
        return Run(record, axis, options, random);
    }

    private static DriftFitResult Run(DriftTestRecord record, Axis axis, DriftFitOptions options, Random? random)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(options);
        options.Check();
        var warnings = new List<string>();
        var design = DriftFitDesign.Of(record, axis, options, options.AnalysisStep, warnings);
        var moved = design.Air.Max() - design.Air.Min();
        var blank = Blank(axis, design, moved, options, warnings);
        if (design.LongestHours < DriftTestRecord.UsualMinimum.TotalHours)
        {
            warnings.Add(FormattableString.Invariant(
                $"the longest stretch lasts {design.LongestHours:0.0} h; 24 h is the usual minimum, 48 h to 72 h with a set-back say more"));
        }

        if (moved < options.MinimumExcitation.Value)
        {
            return blank;
        }

        var analysis = DriftFitAnalysis.Of(design, options);
        var judged = Judge(analysis);
        var result = blank with
        {
            Outcome = judged.Outcome,
            Reason = judged.Reason,
            Candidates = analysis.Choice.Candidates,
            Validation = analysis.Validation,
            StepCount = design.Rows,
            EffectiveSampleSize = ResidualCorrelation.EffectiveSampleSize(analysis.Search.Residuals(analysis.Chosen)),
            OffsetMicrometres = Offset(analysis),
            ResidualStandardDeviationMicrometres = SampleDeviation(record, axis, options, analysis.Chosen),
        };
        AddValidationWarning(analysis, judged, warnings);
        return judged.Outcome is DriftFitOutcome.NoTemperatureResponse or DriftFitOutcome.NotIdentified
            ? result
            : WithModes(result, analysis, judged, random, warnings);
    }

    private static DriftFitResult Blank(Axis axis, DriftFitDesign design, double moved, DriftFitOptions options, List<string> warnings) => new()
    {
        Axis = axis,
        Outcome = DriftFitOutcome.NotIdentified,
        Reason = FormattableString.Invariant($"not identified: the air moved only {moved:0.0#} K; ")
            + FormattableString.Invariant($"{options.MinimumExcitation.Value:0.0#} K are needed, for example by a set-point step"),
        Warnings = warnings,
        Modes = [],
        EffectiveSampleSize = 0.0,
        StepCount = 0,
        AirRange = new Kelvins(moved),
        Duration = TimeSpan.FromHours(design.LongestHours),
        Candidates = [],
    };

    private static double Offset(DriftFitAnalysis analysis) =>
        analysis.Chosen.Coefficients[analysis.Search.Solver.OffsetColumn(analysis.Chosen.Model, analysis.Design.LongestStretch)];

    private static DriftFitIdentifiability Judge(DriftFitAnalysis analysis)
    {
        var model = analysis.Chosen.Model;
        if (DriftFitSolver.Modes(model) > 0)
        {
            return DriftFitIdentifiability.Of(analysis);
        }

        var instead = model switch
        {
            DriftFitModel.Trend or DriftFitModel.Curve => "moves with time",
            DriftFitModel.OneDecay or DriftFitModel.TwoDecays => "settles from where it was when the record began",
            _ => "stays where it is within its noise",
        };
        return new(
            DriftFitOutcome.NoTemperatureResponse,
            $"no answer to temperature found: the displacement {instead}, whatever the air does",
            0);
    }

    private static void AddValidationWarning(DriftFitAnalysis analysis, DriftFitIdentifiability judged, List<string> warnings)
    {
        if (analysis.Validation is not { } validation)
        {
            warnings.Add(FormattableString.Invariant(
                $"not validated: the longest stretch lasts {analysis.Design.LongestHours:0.0} h, ")
                + FormattableString.Invariant($"{DriftFitRollingOrigin.LeastHours:0} h are needed to learn a day and foretell half of one"));
        }
        else if (!validation.BetterThanSimplest && judged.ModesShown > 0)
        {
            warnings.Add(
                FormattableString.Invariant(
                    $"not better than the simplest: on later blocks the fit misses by {validation.FitMicrometres:0.0#} µm, ")
                + FormattableString.Invariant($"holding the last re-probe by {validation.LastReprobeMicrometres:0.0#} µm, ")
                + FormattableString.Invariant($"no model by {validation.NoModelMicrometres:0.0#} µm, ")
                + FormattableString.Invariant(
                    $"the best explanation without temperature by {validation.WithoutTemperatureMicrometres:0.0#} µm"));
        }
    }

    private static DriftFitResult WithModes(
        DriftFitResult result, DriftFitAnalysis analysis, DriftFitIdentifiability judged, Random? random, List<string> warnings)
    {
        var bootstrap = random is null ? null : DriftFitBootstrap.Run(analysis, random);
        if (bootstrap?.Blocks < FewBlocks)
        {
            warnings.Add(FormattableString.Invariant(
                $"the ranges rest on {bootstrap.Blocks:0.0} blocks of two time constants only; a longer record makes them trustworthy"));
        }

        FittedDriftMode[] modes = [.. Enumerable.Range(0, judged.ModesShown).Select(mode => Mode(mode, analysis, bootstrap))];
        var complete = judged.Outcome != DriftFitOutcome.SlowModeNotIdentified;
        return result with
        {
            Modes = modes,
            SlowPrior = complete ? null : Prior(result.Axis, modes, analysis.Options),
            TotalMicrometresPerKelvin = complete ? modes.Sum(mode => mode.SensitivityMicrometresPerKelvin) : null,
            TotalInterval = complete ? Interval(bootstrap?.Totals, analysis.Options.Confidence) : null,
        };
    }

    private static FittedDriftMode Mode(int mode, DriftFitAnalysis analysis, DriftFitBootstrap? bootstrap)
    {
        var sensitivity = analysis.Chosen.Coefficients[mode];
        var tauHours = analysis.Chosen.TauHours[mode];
        var relative = UnstatedRelativeUncertainty;
        if (bootstrap is not null)
        {
            // Half of the central 68 % is the standard deviation of a normal spread, and is not led astray by a few wild replicates.
            var middle = BlockBootstrap.Percentiles(bootstrap.Sensitivities[mode], 0.6827);
            relative = Math.Max((middle.High - middle.Low) / 2.0 / Math.Abs(sensitivity), LeastRelativeUncertainty);
        }

        if (analysis.Validation is { BetterThanSimplest: false })
        {
            relative = Math.Max(relative, UnknownRelativeUncertainty);
        }

        return new FittedDriftMode
        {
            SensitivityMicrometresPerKelvin = sensitivity,
            TimeConstant = TimeSpan.FromHours(tauHours),
            SensitivityInterval = Interval(bootstrap?.Sensitivities[mode], analysis.Options.Confidence),
            TimeConstantHoursInterval = Interval(bootstrap?.TauHours[mode], analysis.Options.Confidence),
            RelativeUncertainty = relative,
            Excitation = new Kelvins(DriftFitIdentifiability.ExcitationKelvins(analysis.Design, tauHours)),
        };
    }

    private static DriftInterval? Interval(double[]? replicates, double share) =>
        replicates is null ? null : BlockBootstrap.Percentiles(replicates, share);

    private static DriftMode Prior(Axis axis, FittedDriftMode[] modes, DriftFitOptions options)
    {
        if (options.SlowPrior is { } stated)
        {
            return stated with { Axis = axis, RelativeUncertainty = UnknownRelativeUncertainty };
        }

        var sign = modes.Length > 0 && modes[0].SensitivityMicrometresPerKelvin > 0.0 ? -1.0 : 1.0;
        var sensitivity = sign * DriftFitResult.PriorMicrometresPerKelvin;
        return new DriftMode(axis, sensitivity, DriftFitResult.PriorTimeConstant, UnknownRelativeUncertainty, Provenance.Default);
    }

    private static double SampleDeviation(DriftTestRecord record, Axis axis, DriftFitOptions options, DriftFitEstimate chosen)
    {
        var perSample = DriftFitDesign.Of(record, axis, options, TimeSpan.Zero, []);
        var solver = new DriftFitSolver(perSample, options.FitInitialState, new DriftFitRows(0, perSample.Rows));
        var predicted = solver.Predict(chosen);
        var squares = perSample.Displacement.Zip(predicted, (seen, said) => (seen - said) * (seen - said)).Sum();
        return Math.Sqrt(squares / Math.Max(perSample.Rows - solver.Parameters(chosen.Model) + 1, 1));
    }
}
