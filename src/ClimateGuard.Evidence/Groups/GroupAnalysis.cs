namespace ClimateGuard.Evidence;

/// <summary>Analyses the inspected parts of one feature together.</summary>
public static class GroupAnalysis
{
    private static readonly string[] Recorded = ["shift", "operator", "tool", "program", "device", "batch"];

    /// <summary>Analyses a group.</summary>
    /// <param name="part">Part number.</param>
    /// <param name="feature">Id of the feature.</param>
    /// <param name="points">Its parts, one or more.</param>
    /// <param name="signed">Measured and predicted have a sign.</param>
    /// <param name="toleranceMicrometres">Plus-or-minus limit of what was measured, in µm.</param>
    public static GroupEvidence Of(string part, string feature, IReadOnlyList<GroupPoint> points, bool signed, double toleranceMicrometres)
    {
        ArgumentNullException.ThrowIfNull(points);
        GroupPoint[] ordered = [.. points.OrderBy(point => point.At).ThenBy(point => point.Serial, StringComparer.Ordinal)];
        var table = TwoByTwo.Of([.. ordered.Select(point => point.Exceeded)], [.. ordered.Select(point => point.OutOfTolerance)]);
        var bare = new GroupEvidence
        {
            Part = part, Feature = feature, Points = ordered, Table = table, Fisher = FisherExact.Test(table, Alternative.Greater),
            Risk = table.Exposed > 0 && table.Other > 0 ? Ratios.Risk(table) : null, ByMachine = ByMachine(ordered),
            Confounders = Confounders(ordered),
            Differences = signed ? GroupDifferences.Of(ordered, Recorded) : [],
            Signs = signed ? SignAgreement.Of(X(ordered), Y(ordered), ordered.Min(point => point.UPredicted)) : null,
        };
        return WithLine(WithEpisodes(bare, ordered), ordered, signed, toleranceMicrometres);
    }

    private static GroupEvidence WithLine(GroupEvidence bare, GroupPoint[] points, bool signed, double tolerance)
    {
        double[] x = X(points), y = Y(points);
        string[] machines = [.. points.Select(point => point.Machine).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];
        if (points.Length < GroupEvidence.FewestParts + machines.Length - 1 || !Varies(x) || bare.Episodes < 2) return bare;
        IReadOnlyList<double>[] levels = [.. machines.Skip(1).Select(machine => (IReadOnlyList<double>)points.Select(point => point.Machine == machine ? 1.0 : 0).ToArray())];
        IReadOnlyList<double>[] columns = [x, .. levels];
        if (Fitted(columns, y) is not { } fit) return bare;
        var episodes = points.Select(point => point.Episode).ToArray();
        int[] numbers = [.. episodes.Select(name => Array.IndexOf(episodes, name))];
        var slope = fit.CoefficientByEpisode(1, columns, numbers);
        var usable = slope.StandardError > 0 && double.IsFinite(slope.StandardError);
        return bare with
        {
            Slope = usable ? SlopeTest.Of(slope) : null,
            Intercept = fit.CoefficientByEpisode(0, columns, numbers),
            RSquared = fit.RSquared,
            NaiveRSquared = Naive(points, levels, y),
            BothErrors = Both(points),
            Dose = Thirds(x, y),
            Capability = Share(points, signed, tolerance),
            PartsNeeded = Needed(fit, x),
            Exploratory = Explore(points, levels, y),
        };
    }

    private static GroupEvidence WithEpisodes(GroupEvidence bare, GroupPoint[] points)
    {
        Episode[] episodes =
        [
            .. points.GroupBy(point => point.Episode, StringComparer.Ordinal)
                .Select(group => new Episode(group.Average(point => point.Predicted), [.. group.Select(point => point.Measured)], group.First().Machine)),
        ];
        if (episodes.Length < 2) return bare;
        return bare with { Permutation = EpisodePermutation.Exchange(episodes), Future = Future(episodes) };
    }

    // With the exposure of now in the regression, that of the next episode must add nothing.
    private static NegativeControl? Future(Episode[] episodes)
    {
        if (episodes.Length < 6) return null;
        double[] now = [.. episodes.SkipLast(1).Select(episode => episode.Exposure)];
        double[] next = [.. NegativeControl.WithFutureExposure(episodes).Select(episode => episode.Exposure)];
        double[] outcome = [.. episodes.SkipLast(1).Select(episode => episode.Outcomes.Average())];
        if (!Varies(now) || !Varies(next) || Fitted([now, next], outcome) is not { } fit) return null;
        var control = fit.Coefficient(2);
        return control.StandardError > 0 ? NegativeControl.Of(control) : null;
    }

    private static double Naive(GroupPoint[] points, IReadOnlyList<double>[] levels, double[] y)
    {
        double[] air = [.. points.Select(point => point.NaiveAirKelvins)];
        return air.All(double.IsFinite) && Varies(air) && Fitted([air, .. levels], y) is { } fit ? fit.RSquared : double.NaN;
    }

    private static LineFit? Both(GroupPoint[] points)
    {
        try
        {
            return ErrorsInBoth.York([.. points.Select(point => new UncertainPoint(point.Predicted, point.Measured, point.UPredicted, point.UMeasured))]);
        }
        catch (ArgumentException)
        {
            // No line settles in these points; the ordinary slope stands alone then.
            return null;
        }
    }

    private static DoseGradientResult? Thirds(double[] x, double[] y)
    {
        try
        {
            return x.Length >= 6 ? DoseGradient.ByThirds(x, y) : null;
        }
        catch (ArgumentException)
        {
            // Too many equal exposures to cut them into thirds.
            return null;
        }
    }

    private static RegressionFit? Fitted(IReadOnlyList<double>[] columns, double[] y)
    {
        try
        {
            return y.Length > columns.Length + 1 ? LinearRegression.Fit(columns, y) : null;
        }
        catch (ArgumentException)
        {
            // A machine whose parts all had one exposure leaves a column that depends on the others.
            return null;
        }
    }

    private static ThermalShareResult? Share(GroupPoint[] points, bool signed, double tolerance) =>
        signed && points.Length >= 5 && Varies(Y(points)) && Varies([.. points.Select(point => point.Measured - point.Predicted)])
            ? ThermalShare.Of(Y(points), X(points), [.. points.Select(point => point.UPredicted)], -tolerance, tolerance)
            : null;

    private static int? Needed(RegressionFit fit, double[] x)
    {
        const double wanted = 0.15;
        return fit.ResidualStandardDeviation > 0 ? Math.Max(0, SampleSize.ForSlope(fit.ResidualStandardDeviation, Univariate.StandardDeviation(x), wanted) - x.Length) : null;
    }

    // The naive exposure and its square are looked at beside the one x of the physics; what is found so is told as a look, not as a test.
    private static MultipleTestingResult? Explore(GroupPoint[] points, IReadOnlyList<double>[] levels, double[] y)
    {
        double[] air = [.. points.Select(point => point.NaiveAirKelvins)], hour = [.. points.Select(point => point.At.TimeOfDay.TotalHours)], order = [.. points.Select((_, i) => (double)i)];
        double[] found =
        [
            .. new[] { air, hour, order }.Where(column => column.All(double.IsFinite) && Varies(column))
                .Select(column => Fitted([column, .. levels], y)).OfType<RegressionFit>().Select(fit => fit.Coefficient(1)).Where(slope => slope.StandardError > 0).Select(slope => slope.PValue()),
        ];
        return found.Length > 0 ? MultipleTesting.BenjaminiHochberg(found) : null;
    }

    private static StratifiedResult? ByMachine(GroupPoint[] points)
    {
        TwoByTwo[] strata =
        [
            .. points.GroupBy(point => point.Machine, StringComparer.Ordinal)
                .Select(group => TwoByTwo.Of([.. group.Select(point => point.Exceeded)], [.. group.Select(point => point.OutOfTolerance)]))
                .Where(table => table.Exposed > 0 && table.Other > 0 && table.Bad > 0 && table.Bad < table.Total),
        ];
        return strata.Length > 1 ? MantelHaenszel.Of(strata) : null;
    }

    private static GroupConfounder[] Confounders(GroupPoint[] points) =>
    [
        .. Recorded.Where(name => points.Length >= GroupEvidence.FewestParts && points.All(point => point.Labels.ContainsKey(name))).Select(name => Confounder(points, name)),
    ];

    private static GroupConfounder Confounder(GroupPoint[] points, string name)
    {
        var found = EpisodeConfounding.Of(X(points), [.. points.Select(point => point.Labels[name])], [.. points.Select(point => point.Episode)]);
        return new GroupConfounder(name, found.Ratio, found.RatioWithoutFew, found.LeftOut, found.CannotBeSeparated);
    }

    private static bool Varies(double[] values) => values.Length > 0 && values.Max() - values.Min() > 1e-9;

    private static double[] X(GroupPoint[] points) => [.. points.Select(point => point.Predicted)];

    private static double[] Y(GroupPoint[] points) => [.. points.Select(point => point.Measured)];
}
