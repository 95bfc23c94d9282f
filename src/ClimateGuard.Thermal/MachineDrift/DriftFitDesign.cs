using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>
/// A drift test made ready for fitting: stretches without a gap, means over analysis steps, columns for any time constant.
/// </summary>
/// <remarks>
/// The model is linear in everything but τ, so means of the displacement equal the model of the means, exactly: θ follows every sample
/// and is averaged like the displacement.
/// </remarks>
internal sealed class DriftFitDesign
{
    private const int MostSteps = 2000;
    private readonly double[] _hours;
    private readonly double[] _input;
    private readonly int[] _step;
    private readonly int[] _samplesInStep;
    private readonly double[] _scratch;
    private readonly double[] _zeros;
    private readonly InputHold _hold;
    private readonly List<(int From, int To)> _stretches;
    private readonly Dictionary<double, (double[] Mode, double[][] Decays)> _kept = [];

    private DriftFitDesign(
        double[] hours, double[] input, double[] displacement, List<(int From, int To)> stretches, InputHold hold, double stepHours)
    {
        (_hours, _input, _hold, _stretches) = (hours, input, hold, stretches);
        _step = new int[hours.Length];
        var stretchOfStep = new List<int>();
        for (var s = 0; s < stretches.Count; s++)
        {
            var last = -1.0;
            for (var i = stretches[s].From; i < stretches[s].To; i++)
            {
                // A sample on the border of two steps belongs to the later one even when its time carries rounding.
                var within = stepHours > 0.0 ? Math.Floor(((hours[i] - hours[stretches[s].From]) / stepHours) + 1e-9) : i - stretches[s].From;
                if (within != last)
                {
                    stretchOfStep.Add(s);
                    last = within;
                }

                _step[i] = stretchOfStep.Count - 1;
            }
        }

        Rows = stretchOfStep.Count;
        StretchOfRow = [.. stretchOfStep];
        _samplesInStep = new int[Rows];
        foreach (var i in Samples())
        {
            _samplesInStep[_step[i]]++;
        }

        _scratch = new double[hours.Length];
        _zeros = new double[hours.Length];
        Displacement = Averaged(displacement);
        Air = Averaged(input);
        Hours = Averaged(hours);
    }

    /// <summary>Number of analysis steps.</summary>
    public int Rows { get; }

    /// <summary>Mean displacement in each step, in µm.</summary>
    public double[] Displacement { get; }

    /// <summary>Mean temperature − 20 in each step, in K.</summary>
    public double[] Air { get; }

    /// <summary>Mean time of each step since the first sample, in h.</summary>
    public double[] Hours { get; }

    /// <summary>Which stretch a step lies in.</summary>
    public int[] StretchOfRow { get; }

    /// <summary>Number of stretches without a gap.</summary>
    public int Stretches => _stretches.Count;

    /// <summary>The stretch that lasts longest.</summary>
    public int LongestStretch => Enumerable.Range(0, Stretches).MaxBy(StretchHours);

    /// <summary>Length of the longest stretch, in h.</summary>
    public double LongestHours => StretchHours(LongestStretch);

    /// <summary>Splits a record at its gaps, and tells what was left out.</summary>
    public static DriftFitDesign Of(DriftTestRecord record, Axis axis, DriftFitOptions options, TimeSpan step, ICollection<string> warnings)
    {
        var start = record.Times[0];
        double[] hours = [.. record.Times.Select(time => (time - start).TotalHours)];
        double[] input = [.. record.Temperatures.Select(temperature => temperature.FromReference.Value)];
        var stretches = Split(record, hours, options, warnings);
        if (stretches.Count == 0)
        {
            throw new ArgumentException(
                FormattableString.Invariant($"The drift test has no stretch of {options.ShortestStretch.TotalHours:0.0} h ")
                + FormattableString.Invariant($"without a gap of more than {options.MaximumGap.TotalMinutes:0} min; ")
                + "record longer or more often.",
                nameof(record));
        }

        return new DriftFitDesign(
            hours, input, [.. record.DisplacementMicrometres(axis)], stretches, options.Hold, StepHours(step, stretches, hours));
    }

    /// <summary>Works the columns of often used time constants out once.</summary>
    public void Keep(IEnumerable<double> tauHours)
    {
        foreach (var tau in tauHours)
        {
            var mode = new double[Rows];
            FillMode(tau, mode);
            _kept[tau] = (mode, [.. Enumerable.Range(0, Stretches).Select(s => DecayOf(tau, s))]);
        }
    }

    /// <summary>θ of a mode that began at rest at the first temperature of each stretch, in K.</summary>
    public void FillMode(double tauHours, Span<double> column)
    {
        if (_kept.TryGetValue(tauHours, out var kept))
        {
            kept.Mode.CopyTo(column);
            return;
        }

        foreach (var (from, to) in _stretches)
        {
            var theta = _scratch.AsSpan(from, to - from);
            ExactFilter.Respond(
                _hours.AsSpan(from, theta.Length), _input.AsSpan(from, theta.Length), tauHours, _hold, _input[from], theta);
        }

        Average(_scratch, column);
    }

    /// <summary>How a state that was there when a stretch began dies away, 1 at its begin and 0 in the other stretches.</summary>
    public void FillDecay(double tauHours, int stretch, Span<double> column)
    {
        if (_kept.TryGetValue(tauHours, out var kept))
        {
            kept.Decays[stretch].CopyTo(column);
            return;
        }

        _scratch.AsSpan().Clear();
        var (from, to) = _stretches[stretch];
        var state = _scratch.AsSpan(from, to - from);
        ExactFilter.Respond(
            _hours.AsSpan(from, state.Length), _zeros.AsSpan(from, state.Length), tauHours, InputHold.PiecewiseConstant, 1.0, state);
        Average(_scratch, column);
    }

    private static List<(int From, int To)> Split(
        DriftTestRecord record, double[] hours, DriftFitOptions options, ICollection<string> warnings)
    {
        var stretches = new List<(int From, int To)>();
        var from = 0;
        for (var i = 1; i <= hours.Length; i++)
        {
            if (i < hours.Length && hours[i] - hours[i - 1] <= options.MaximumGap.TotalHours)
            {
                continue;
            }

            if (i < hours.Length)
            {
                warnings.Add(FormattableString.Invariant(
                    $"gap of {hours[i] - hours[i - 1]:0.0} h after {record.Times[i - 1]:u}: the modes and the offset start anew there"));
            }

            if (hours[i - 1] - hours[from] >= options.ShortestStretch.TotalHours)
            {
                stretches.Add((from, i));
            }
            else
            {
                warnings.Add(FormattableString.Invariant(
                    $"{i - from} samples from {record.Times[from]:u} left out: they cover less than ")
                    + FormattableString.Invariant($"{options.ShortestStretch.TotalHours:0.0} h without a gap"));
            }

            from = i;
        }

        return stretches;
    }

    private static double StepHours(TimeSpan step, List<(int From, int To)> stretches, double[] hours)
    {
        var total = stretches.Sum(stretch => hours[stretch.To - 1] - hours[stretch.From]);
        var wanted = step.TotalHours;
        while (wanted > 0.0 && total / wanted > MostSteps)
        {
            wanted *= 2.0;
        }

        return wanted;
    }

    private double StretchHours(int stretch) => _hours[_stretches[stretch].To - 1] - _hours[_stretches[stretch].From];

    private double[] DecayOf(double tau, int stretch)
    {
        var decay = new double[Rows];
        FillDecay(tau, stretch, decay);
        return decay;
    }

    private IEnumerable<int> Samples() => _stretches.SelectMany(stretch => Enumerable.Range(stretch.From, stretch.To - stretch.From));

    private double[] Averaged(double[] perSample)
    {
        var column = new double[Rows];
        Average(perSample, column);
        return column;
    }

    private void Average(double[] perSample, Span<double> column)
    {
        column.Clear();
        foreach (var (from, to) in _stretches)
        {
            for (var i = from; i < to; i++)
            {
                column[_step[i]] += perSample[i];
            }
        }

        for (var row = 0; row < Rows; row++)
        {
            column[row] /= _samplesInStep[row];
        }
    }
}
