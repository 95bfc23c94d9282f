namespace ClimateGuard.Thermal;

/// <summary>Which analysis steps are looked at: <paramref name="Count"/> of them from <paramref name="First"/>.</summary>
internal readonly record struct DriftFitRows(int First, int Count);

/// <summary>Builds the columns of a model at given time constants and solves for its coefficients.</summary>
/// <remarks>
/// Column order: one per mode (its coefficient is S in µm/K), then per stretch the offset and what the model adds to it: powers of time, or one
/// dying state per time constant (its coefficient is S·θ₀ in µm). Holds scratch space, so one per thread.
/// </remarks>
internal sealed class DriftFitSolver
{
    private readonly DriftFitDesign _design;
    private readonly bool _initialState;
    private readonly DriftFitRows _rows;
    private readonly int _firstStretch;
    private readonly int _stretches;
    private readonly double[] _column;
    private readonly double[] _observations;
    private double[] _matrix = [];

    public DriftFitSolver(DriftFitDesign design, bool initialState, DriftFitRows rows)
    {
        (_design, _initialState, _rows) = (design, initialState, rows);
        _firstStretch = design.StretchOfRow[rows.First];
        _stretches = design.StretchOfRow[rows.First + rows.Count - 1] - _firstStretch + 1;
        _column = new double[design.Rows];
        _observations = new double[rows.Count];
    }

    public int Rows => _rows.Count;

    /// <summary>The first analysis step that is looked at.</summary>
    public int FirstRow => _rows.First;

    /// <summary>The displacements that are to be explained, in µm.</summary>
    public ReadOnlySpan<double> Displacement => _design.Displacement.AsSpan(_rows.First, _rows.Count);

    public static int TimeConstants(DriftFitModel model) => model switch
    {
        DriftFitModel.OneDecay or DriftFitModel.OneMode => 1,
        DriftFitModel.TwoDecays or DriftFitModel.TwoModes => 2,
        _ => 0,
    };

    public static int Modes(DriftFitModel model) => model switch
    {
        DriftFitModel.OneMode => 1,
        DriftFitModel.TwoModes => 2,
        _ => 0,
    };

    public int Columns(DriftFitModel model) => Modes(model) + (_stretches * ColumnsPerStretch(model));

    /// <summary>Coefficients and time constants, and one for the spread.</summary>
    public int Parameters(DriftFitModel model) => Columns(model) + TimeConstants(model) + 1;

    /// <summary>Solves for the coefficients.</summary>
    /// <returns>The sum of squared residuals, in µm².</returns>
    public double Solve(DriftFitModel model, ReadOnlySpan<double> tauHours, ReadOnlySpan<double> displacement, Span<double> coefficients)
    {
        var columns = Columns(model);
        if (_matrix.Length < columns * Rows)
        {
            _matrix = new double[columns * Rows];
        }

        var matrix = _matrix.AsSpan(0, columns * Rows);
        for (var k = 0; k < columns; k++)
        {
            Fill(model, tauHours, k);
            _column.AsSpan(_rows.First, Rows).CopyTo(matrix[(k * Rows)..]);
        }

        displacement.CopyTo(_observations);
        return LinearLeastSquares.SolveInPlace(matrix, Rows, _observations, coefficients);
    }

    /// <summary>What the model says for every analysis step of the design, in µm.</summary>
    public double[] Predict(DriftFitEstimate estimate)
    {
        var predicted = new double[_design.Rows];
        for (var k = 0; k < estimate.Coefficients.Length; k++)
        {
            Fill(estimate.Model, estimate.TauHours, k);
            for (var row = 0; row < predicted.Length; row++)
            {
                predicted[row] += estimate.Coefficients[k] * _column[row];
            }
        }

        return predicted;
    }

    /// <summary>The place of a stretch's offset among the coefficients.</summary>
    public int OffsetColumn(DriftFitModel model, int stretch) => Modes(model) + ((stretch - _firstStretch) * ColumnsPerStretch(model));

    private int ColumnsPerStretch(DriftFitModel model) =>
        1 + model switch
        {
            DriftFitModel.Trend => 1,
            DriftFitModel.Curve => 2,
            _ => _initialState ? TimeConstants(model) : 0,
        };

    private void Fill(DriftFitModel model, ReadOnlySpan<double> tauHours, int k)
    {
        if (k < Modes(model))
        {
            _design.FillMode(tauHours[k], _column);
            return;
        }

        var (stretch, part) = Math.DivRem(k - Modes(model), ColumnsPerStretch(model));
        stretch += _firstStretch;
        if (part > 0 && TimeConstants(model) > 0)
        {
            _design.FillDecay(tauHours[part - 1], stretch, _column);
            return;
        }

        for (var row = 0; row < _column.Length; row++)
        {
            _column[row] = _design.StretchOfRow[row] == stretch ? Math.Pow(_design.Hours[row], part) : 0.0;
        }
    }
}
