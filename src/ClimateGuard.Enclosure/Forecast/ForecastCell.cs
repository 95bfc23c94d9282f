namespace ClimateGuard.Enclosure;

/// <summary>The errors of all rungs at one regime and horizon, the rung they choose, and the interval they give.</summary>
/// <remarks>
/// The simplest rung that wins: within 2 % of the best mean absolute error against persistence on the moments both told, and better than
/// persistence, of fewer than 300 errors by a share of 0.6/√days, as errors of a day hang together; else persistence. Errors of one afternoon hang together, so fewer than 50, or of fewer than three days
/// (common practice, no source), choose nothing. The interval: quantiles of its errors with the rank (n + 1)·p of conformal prediction (Vovk,
/// Gammerman and Shafer 2005, from memory); of so few errors it is wider by a fifth,
/// because they hang together (from trials on random weeks of the virtual cell, no source).
/// </remarks>
/// <param name="scratch">Room to sort <see cref="Capacity"/> errors, shared with other cells.</param>
internal sealed class ForecastCell(double[] scratch)
{
    public const int FewResiduals = 50;

    /// <summary>How many errors are kept: two weeks of them.</summary>
    public const int Capacity = 2016;

    private const int LeastDays = 3;
    private const int StepsPerDay = 24 * 60 / ZoneCourse.StepMinutes;
    private const double AsGood = 1.02;
    private const int SeldomErrors = 300;
    private const double Doubt = 0.6;
    private const double Share = 0.90;
    private const double WhenFew = 1.2;
    private static readonly int Kinds = Enum.GetValues<AirModelKind>().Length;
    private readonly float[][] errors = [.. Enumerable.Range(0, Kinds).Select(_ => Array.Empty<float>())];
    private long[] steps = [];
    private int place;
    private long told;
    private long intervals;
    private long inside;
    private double absolute;
    private double absolutePersistence;

    /// <summary>The rung in use.</summary>
    public AirModelKind Chosen { get; private set; }

    /// <summary>How many errors the interval comes from.</summary>
    public int Residuals { get; private set; }

    /// <summary>Whether they are too few, or of too few days.</summary>
    public bool Few { get; private set; } = true;

    /// <summary>What is added to the forecast for the lower end, K; NaN before there are any errors.</summary>
    public double Low { get; private set; } = double.NaN;

    /// <summary>What is added for the upper end, K.</summary>
    public double High { get; private set; } = double.NaN;

    /// <summary>How many moments are kept.</summary>
    public int Count { get; private set; }

    /// <summary>Takes how far the truth lay above what each rung had told; NaN where one told nothing.</summary>
    /// <param name="error">One for each rung, K.</param>
    /// <param name="step">When it was told.</param>
    public void Add(ReadOnlySpan<float> error, long step)
    {
        if (steps.Length == 0) steps = new long[Capacity];
        steps[place] = step;
        for (var kind = 0; kind < Kinds; kind++)
        {
            if (errors[kind].Length == 0) errors[kind] = new float[Capacity];
            errors[kind][place] = error[kind];
        }

        place = (place + 1) % Capacity;
        Count = Math.Min(Count + 1, Capacity);
    }

    /// <summary>Takes what became of a forecast that was shown.</summary>
    public void Score(double shownError, double persistenceError, double low, double high)
    {
        told++;
        absolute += Math.Abs(shownError);
        absolutePersistence += Math.Abs(persistenceError);
        if (double.IsNaN(low)) return;
        intervals++;
        if (shownError >= low && shownError <= high) inside++;
    }

    /// <summary>Chooses the rung and its interval by the errors kept.</summary>
    public void Choose()
    {
        Few = Count < FewResiduals || Days() < LeastDays;
        Chosen = Few ? AirModelKind.Persistence : Simplest();
        Residuals = Sorted(Chosen);
        if (Residuals == 0) return;
        var rank = (int)Math.Ceiling((Residuals + 1) * (1 + Share) / 2);
        var wider = Few ? WhenFew : 1;
        High = wider * scratch[Math.Clamp(rank - 1, 0, Residuals - 1)];
        Low = wider * scratch[Math.Clamp(Residuals - rank, 0, Residuals - 1)];
        (Low, High) = (Math.Min(Low, 0), Math.Max(High, 0));
    }

    /// <summary>How it did so far.</summary>
    public ForecastScore Scored(Regime regime, TimeSpan ahead) => new(
        regime, ahead, Chosen, told, told == 0 ? double.NaN : absolute / told, told == 0 ? double.NaN : absolutePersistence / told,
        intervals, intervals == 0 ? double.NaN : inside / (double)intervals);

    /// <summary>Mean absolute error of a rung against that of persistence on the moments both told; NaN for too few.</summary>
    internal double Ratio(AirModelKind kind)
    {
        double own = 0, persistence = 0;
        var both = 0;
        for (var k = 0; k < Count; k++)
        {
            float mine = errors[(int)kind][k], stays = errors[(int)AirModelKind.Persistence][k];
            if (float.IsNaN(mine) || float.IsNaN(stays)) continue;
            own += Math.Abs(mine);
            persistence += Math.Abs(stays);
            both++;
        }

        return both < FewResiduals || persistence <= 0 ? double.NaN : own / persistence;
    }

    private AirModelKind Simplest()
    {
        Span<double> ratios = stackalloc double[Kinds];
        var best = 1.0;
        for (var kind = 1; kind < Kinds; kind++)
        {
            ratios[kind] = Ratio((AirModelKind)kind);
            if (ratios[kind] < best) best = ratios[kind];
        }

        var enough = Count < SeldomErrors ? 1 - (Doubt / Math.Sqrt(Days())) : 1;
        for (var kind = 1; kind < Kinds; kind++)
        {
            if (ratios[kind] < enough && ratios[kind] <= best * AsGood) return (AirModelKind)kind;
        }

        return AirModelKind.Persistence;
    }

    private int Days()
    {
        var days = 0;
        var last = long.MinValue;
        for (var k = 0; k < Count; k++)
        {
            var day = steps[Count < Capacity ? k : (place + k) % Capacity] / StepsPerDay;
            if (day != last) days++;
            last = day;
        }

        return days;
    }

    private int Sorted(AirModelKind kind)
    {
        var known = 0;
        for (var k = 0; k < Count; k++)
        {
            if (!float.IsNaN(errors[(int)kind][k])) scratch[known++] = errors[(int)kind][k];
        }

        Array.Sort(scratch, 0, known);
        return known;
    }
}
