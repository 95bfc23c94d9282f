using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Optimization;

namespace ClimateGuard.Thermal;

/// <summary>One model fitted to some analysis steps.</summary>
internal sealed record DriftFitEstimate(DriftFitModel Model, double[] TauHours, double[] Coefficients, double Squares);

/// <summary>Separable least squares: time constants by a log-spaced grid and a local search, all else by linear least squares.</summary>
internal sealed class DriftFitSearch
{
    /// <summary>Two modes nearer than this cannot be told apart from one; common practice, no source.</summary>
    public const double LeastRatio = 2.5;

    // A spread of a picometre: nothing is measured better, and the logarithm of a perfect fit stays finite.
    private const double FloorSquareMicrometres = 1e-12;

    private readonly DriftFitSolver _solver;
    private readonly double[] _grid;
    private readonly double _fastest;
    private readonly double _slowest;

    public DriftFitSearch(DriftFitSolver solver, DriftFitOptions options)
    {
        _solver = solver;
        _grid = Grid(options);
        (_fastest, _slowest) = (_grid[0], _grid[^1]);
    }

    public DriftFitSolver Solver => _solver;

    /// <summary>The time constants of the first search, in h.</summary>
    public static double[] Grid(DriftFitOptions options)
    {
        var fastest = options.FastestTimeConstant.TotalHours;
        var growth = options.SlowestTimeConstant.TotalHours / fastest;
        return [.. Enumerable.Range(0, options.GridPoints).Select(i => fastest * Math.Pow(growth, (double)i / (options.GridPoints - 1)))];
    }

    /// <summary>The best fit of a model.</summary>
    public DriftFitEstimate Fit(DriftFitModel model, ReadOnlySpan<double> displacement)
    {
        double[] y = [.. displacement];
        return DriftFitSolver.TimeConstants(model) switch
        {
            0 => At(model, [], y),
            1 => Refine(model, BestOfGrid(model, y), y, 1e-12),
            _ => Refine(model, BestPairOfGrid(model, y), y, 1e-12),
        };
    }

    /// <summary>A local search from time constants that are already near.</summary>
    public DriftFitEstimate Refine(DriftFitModel model, double[] startTauHours, double[] displacement, double tolerance)
    {
        var start = Vector<double>.Build.Dense(startTauHours.Length, i => Math.Log(startTauHours[i] / (i == 0 ? 1.0 : startTauHours[0])));
        var reach = Vector<double>.Build.Dense(startTauHours.Length, 0.5 * Math.Log(_slowest / _fastest) / (_grid.Length - 1));
        var objective = ObjectiveFunction.Value(place => Misfit(model, TauAt(place), displacement));
        try
        {
            var found = NelderMeadSimplex.Minimum(objective, start, reach, tolerance, 500);
            return At(model, TauAt(found.MinimizingPoint), displacement);
        }
        catch (MaximumIterationsException)
        {
            // A valley so flat that the search does not end: its start is as good as any place in it, and the interval will be wide.
            return At(model, startTauHours, displacement);
        }
    }

    /// <summary>The least sum of squares of two modes, or of one, when the slower time constant is given.</summary>
    public double SquaresWithSlow(DriftFitModel model, double slowTauHours)
    {
        double[] y = [.. _solver.Displacement];
        if (model == DriftFitModel.OneMode)
        {
            return At(model, [slowTauHours], y).Squares;
        }

        var fast = _grid.Where(tau => tau * LeastRatio <= slowTauHours).MinBy(tau => Misfit(model, [tau, slowTauHours], y));
        var step = Math.Pow(_slowest / _fastest, 1.0 / (_grid.Length - 1));
        var low = Math.Log(fast / step);
        var high = Math.Log(Math.Min(fast * step, slowTauHours / LeastRatio));
        // Narrowed about the best of nine each time: a bracketing search would fail where the best lies on the border.
        const int points = 9;
        var least = double.PositiveInfinity;
        for (var pass = 0; pass < 4; pass++)
        {
            var width = (high - low) / (points - 1);
            double[] places = [.. Enumerable.Range(0, points).Select(i => low + (i * width))];
            var best = places.MinBy(place => Misfit(model, [Math.Exp(place), slowTauHours], y));
            least = Math.Min(least, At(model, [Math.Exp(best), slowTauHours], y).Squares);
            (low, high) = (Math.Max(low, best - width), Math.Min(high, best + width));
        }

        return least;
    }

    /// <summary>All models with their information criterion, best first; the effective sample size is that of the closest.</summary>
    public (IReadOnlyList<(DriftFitEstimate Fit, double Bic)> Ranked, double EffectiveSize) Compare()
    {
        var fits = Enum.GetValues<DriftFitModel>()
            .Where(model => _solver.Parameters(model) < _solver.Rows)
            .Select(model => Fit(model, _solver.Displacement))
            .ToArray();
        var size = ResidualCorrelation.EffectiveSampleSize(Residuals(fits.MinBy(fit => fit.Squares)!));
        return ([.. fits.Select(fit => (fit, Bic(fit, size))).OrderBy(pair => pair.Item2)], size);
    }

    /// <summary>Displacement minus model over the steps that were fitted, in µm.</summary>
    public double[] Residuals(DriftFitEstimate estimate)
    {
        double[] y = [.. _solver.Displacement];
        var predicted = _solver.Predict(estimate).AsSpan(_solver.FirstRow, _solver.Rows);
        for (var i = 0; i < y.Length; i++)
        {
            y[i] -= predicted[i];
        }

        return y;
    }

    private double Bic(DriftFitEstimate fit, double size) =>
        (size * Math.Log((fit.Squares / _solver.Rows) + FloorSquareMicrometres)) + (_solver.Parameters(fit.Model) * Math.Log(size));

    private DriftFitEstimate At(DriftFitModel model, double[] tauHours, double[] y)
    {
        var coefficients = new double[_solver.Columns(model)];
        var squares = _solver.Solve(model, tauHours, y, coefficients);
        return new DriftFitEstimate(model, tauHours, coefficients, squares);
    }

    private double Misfit(DriftFitModel model, ReadOnlySpan<double> tauHours, double[] y)
    {
        Span<double> coefficients = stackalloc double[_solver.Columns(model)];
        var squares = _solver.Solve(model, tauHours, y, coefficients);
        return Math.Log((squares / y.Length) + FloorSquareMicrometres);
    }

    private double[] BestOfGrid(DriftFitModel model, double[] y) => [_grid.MinBy(tau => Misfit(model, [tau], y))];

    private double[] BestPairOfGrid(DriftFitModel model, double[] y)
    {
        var pairs = from fast in _grid from slow in _grid where slow >= LeastRatio * fast select new[] { fast, slow };
        return pairs.MinBy(pair => Misfit(model, pair, y))!;
    }

    // The first coordinate is ln τ of the faster, the second the logarithm of the ratio; both are held inside the searched range.
    private double[] TauAt(Vector<double> place)
    {
        var pair = place.Count == 2;
        var fast = Math.Clamp(Math.Exp(place[0]), _fastest, pair ? _slowest / LeastRatio : _slowest);
        return pair ? [fast, Math.Clamp(fast * Math.Exp(place[1]), LeastRatio * fast, _slowest)] : [fast];
    }
}
