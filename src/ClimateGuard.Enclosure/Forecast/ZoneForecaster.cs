using ClimateGuard.Plant;

namespace ClimateGuard.Enclosure;

/// <summary>Forecasts the air of one zone, 10 min to 4 h ahead, and keeps account of how well it does.</summary>
/// <remarks>
/// Every ten minutes each rung tells every horizon; when the moment comes, its error is kept by the regime of the telling. So the backtest is
/// a rolling origin by construction: nothing is ever scored on what it has learned from, and feeding history is the same as living it.
/// Once an hour the rungs are fitted and the rung and interval of each regime and horizon are chosen anew. Deterministic. Owned by one thread.
/// </remarks>
public sealed class ZoneForecaster
{
    private const int TellEvery = 2;
    private const int FitEvery = 12;
    private static readonly int[] Horizons = [2, 4, 6, 9, 12, 18, 24, 36, 48];
    private static readonly int Kinds = Enum.GetValues<AirModelKind>().Length;
    private static readonly int RegimeCount = Enum.GetValues<Regime>().Length;
    private readonly Zone zone;
    private readonly AirModel[] rungs;
    private readonly ComingInputs coming;
    private readonly ForecastCell[] cells;
    private readonly Telling[] tellings = [.. Enumerable.Range(0, ComingInputs.Steps + 1).Select(_ => new Telling(Horizons.Length * Kinds, Horizons.Length))];
    private readonly double[] told = new double[Horizons.Length];
    private readonly float[] errors = new float[Kinds];
    private readonly int turn;
    private long fittedAt = long.MinValue / 2;

    /// <summary>Begins with nothing known.</summary>
    /// <param name="zone">The zone.</param>
    /// <param name="calendar">Which days of the shop are alike.</param>
    /// <param name="turn">When in the hour and the day its costly fits are made; zones of other turns make them at other times.</param>
    public ZoneForecaster(Zone zone, WorkCalendar calendar, int turn = 0)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(calendar);
        ArgumentOutOfRangeException.ThrowIfNegative(turn);
        (this.zone, this.turn) = (zone, turn);
        coming = new ComingInputs(calendar);
        rungs = [new Persistence(), new Reversion(), new DampedTrend(), new RoomAhead(turn / FitEvery), new SameClock(calendar)];
        var scratch = new double[ForecastCell.Capacity];
        cells = [.. Enumerable.Range(0, RegimeCount * Horizons.Length).Select(_ => new ForecastCell(scratch))];
        Latest = Silent("Nothing has come in yet.");
    }

    /// <summary>The horizons.</summary>
    public static IReadOnlyList<TimeSpan> AllAhead { get; } = [.. Horizons.Select(h => TimeSpan.FromMinutes(h * ZoneCourse.StepMinutes))];

    /// <summary>What the zone did.</summary>
    public ZoneCourse Course { get; } = new();

    /// <summary>The forecast from the last whole step on.</summary>
    public ZoneForecast Latest { get; private set; }

    /// <summary>States the set points to come, such as a set-back programme; they count over what the week before shows.</summary>
    public void State(IReadOnlyList<SetpointChange> changes)
    {
        ArgumentNullException.ThrowIfNull(changes);
        coming.Stated = [.. changes.OrderBy(change => change.At)];
    }

    /// <summary>Takes a moment; with each whole step of five minutes comes a new <see cref="Latest"/>.</summary>
    /// <param name="moment">Later than the one before; one that is not is left out and counted in <see cref="ZoneCourse.LeftOut"/>.</param>
    /// <returns>Whether there is a new forecast.</returns>
    public bool Take(in ZoneMoment moment)
    {
        var whole = Course.Add(moment);
        if (whole == 0) return false;
        if (whole > 1) ForgetTellings();
        foreach (var rung in rungs) rung.Take(Course);
        coming.Look(Course);
        Score();
        if (Course.LastStep - fittedAt >= FitEvery || Course.LastStep % FitEvery == turn % FitEvery) Fit();
        Latest = Tell();
        return true;
    }

    /// <summary>How well each regime and horizon did so far; those never told are left out.</summary>
    public IReadOnlyList<ForecastScore> Scores() =>
    [
        .. from regime in Enumerable.Range(0, RegimeCount)
           from h in Enumerable.Range(0, Horizons.Length)
           let score = CellOf((Regime)regime, h).Scored((Regime)regime, AllAhead[h])
           where score.Told > 0
           select score,
    ];

    internal ForecastCell CellOf(Regime regime, int horizon) => cells[((int)regime * Horizons.Length) + horizon];

    private void Fit()
    {
        fittedAt = Course.LastStep;
        foreach (var rung in rungs) rung.Learn(Course);
        foreach (var cell in cells) cell.Choose();
    }

    private ZoneForecast Tell()
    {
        var air = Course.Air[^1];
        var regime = Course.Regimes[^1];
        var telling = tellings[(int)(Course.LastStep % tellings.Length)];
        telling.Forget();
        if (double.IsNaN(air) || regime == Regime.Unknown) return Silent("The air of the zone is not known.");
        telling.Begin(Course.LastStep, regime, Course.LastStep % TellEvery == 0);
        foreach (var rung in rungs)
        {
            rung.Ahead(Course, coming, Horizons, told);
            for (var h = 0; h < Horizons.Length; h++) telling.Celsius[(h * Kinds) + (int)rung.Kind] = told[h];
        }

        var points = new ForecastPoint[Horizons.Length];
        for (var h = 0; h < Horizons.Length; h++) points[h] = Point(telling, regime, h);
        return new ZoneForecast(zone.Id, Course.At, air, regime, points, Notes(points, regime));
    }

    private ForecastPoint Point(Telling telling, Regime regime, int h)
    {
        var cell = CellOf(regime, h);
        var kind = double.IsNaN(telling.Celsius[(h * Kinds) + (int)cell.Chosen]) ? AirModelKind.Persistence : cell.Chosen;
        var celsius = telling.Celsius[(h * Kinds) + (int)kind];
        var (low, high) = cell.Few ? Borrowed(regime, h) : (cell.Low, cell.High);
        telling.Shown[h] = (kind, low, high);
        return new ForecastPoint(AllAhead[h], celsius, celsius + low, celsius + high, kind, cell.Residuals, cell.Few);
    }

    // A regime seldom seen borrows the widest of those in which the control does not hold the air; one that nothing is like, of all.
    private (double Low, double High) Borrowed(Regime own, int h)
    {
        var (low, high) = Widest(regime => regime == own || regime is Regime.AtCapacity or Regime.Recovering or Regime.Off or Regime.OutsideTheModel, h);
        if (!double.IsNaN(low)) return (low, high);
        (low, high) = Widest(_ => true, h);
        return (1.5 * low, 1.5 * high);
    }

    private (double Low, double High) Widest(Func<Regime, bool> wanted, int h)
    {
        double low = double.NaN, high = double.NaN;
        for (var regime = 0; regime < RegimeCount; regime++)
        {
            var cell = CellOf((Regime)regime, h);
            if (cell.Residuals == 0 || !wanted((Regime)regime)) continue;
            low = double.IsNaN(low) ? cell.Low : Math.Min(low, cell.Low);
            high = double.IsNaN(high) ? cell.High : Math.Max(high, cell.High);
        }

        return (low, high);
    }

    private void Score()
    {
        var air = Course.Air[^1];
        if (double.IsNaN(air)) return;
        for (var h = 0; h < Horizons.Length; h++)
        {
            var step = Course.LastStep - Horizons[h];
            if (step < 0) continue;
            var telling = tellings[(int)(step % tellings.Length)];
            if (telling.Step != step || !telling.Counts) continue;
            for (var kind = 0; kind < Kinds; kind++) errors[kind] = (float)(air - telling.Celsius[(h * Kinds) + kind]);
            var cell = CellOf(telling.Regime, h);
            var (shown, low, high) = telling.Shown[h];
            cell.Score(errors[(int)shown], errors[(int)AirModelKind.Persistence], low, high);
            cell.Add(errors, step);
        }
    }

    private void ForgetTellings()
    {
        // What was told before a gap still comes due after it, if it lies that far ahead; older ones are gone.
        foreach (var telling in tellings)
        {
            if (Course.LastStep - telling.Step > ComingInputs.Steps) telling.Forget();
        }
    }

    private List<string> Notes(ForecastPoint[] points, Regime regime)
    {
        var notes = new List<string>();
        if (double.IsNaN(Course.Setpoint[^1])) notes.Add("No set point is known: the air is taken to go back to its own mean.");
        var few = points.Count(point => point.Widened);
        if (few > 0)
        {
            notes.Add(FormattableString.Invariant(
                $"Too few forecasts made {Words(regime)} have come due ({ForecastCell.FewResiduals} on three days are needed) at {few} of {points.Length} horizons; their intervals are wider by a fifth."));
        }

        return notes;
    }

    private static string Words(Regime regime) => regime switch
    {
        Regime.InControl => "in control",
        Regime.AtCapacity => "at capacity",
        Regime.Recovering => "while the air recovers",
        Regime.Off => "with the fans off",
        Regime.SetBack => "in set-back",
        _ => "outside the model",
    };

    private ZoneForecast Silent(string because) =>
        new(zone.Id, Course.Count == 0 ? DateTimeOffset.MinValue : Course.At, double.NaN, Regime.Unknown, [], [because]);
}
