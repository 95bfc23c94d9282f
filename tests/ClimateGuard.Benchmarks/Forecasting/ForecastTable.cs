using ClimateGuard.Enclosure;

namespace ClimateGuard.Benchmarks.Forecasting;

/// <summary>The scores of all zones, by regime and horizon.</summary>
internal static class ForecastTable
{
    /// <summary>What was added to the scores since an earlier moment.</summary>
    public static IEnumerable<ForecastScore> Since(IReadOnlyList<ForecastScore> early, IReadOnlyList<ForecastScore> late)
    {
        foreach (var score in late)
        {
            var before = early.FirstOrDefault(e => e.Regime == score.Regime && e.Ahead == score.Ahead);
            if (before is null) yield return score;
            else if (score.Told > before.Told) yield return Minus(score, before);
        }
    }

    public static void Print(IReadOnlyList<ForecastScore> scores)
    {
        Console.WriteLine("| regime | ahead | forecasts | MAE K | persistence K | skill | 90 % interval held | rung in use |");
        Console.WriteLine("| --- | --- | --- | --- | --- | --- | --- | --- |");
        foreach (var group in scores.GroupBy(s => (s.Regime, s.Ahead)).OrderBy(g => g.Key)) PrintRow(group.Key.Regime.ToString(), group.Key.Ahead, [.. group]);
        foreach (var group in scores.GroupBy(s => s.Ahead).OrderBy(g => g.Key)) PrintRow("all", group.Key, [.. group]);
    }

    /// <summary>Mean absolute error of each rung against that of persistence, over the moments still kept.</summary>
    public static void PrintRungs(ZoneForecaster forecaster)
    {
        foreach (var regime in Enum.GetValues<Regime>())
        {
            for (var h = 0; h < ZoneForecaster.AllAhead.Count; h++)
            {
                var cell = forecaster.CellOf(regime, h);
                if (cell.Count == 0) continue;
                var ratios = string.Join("  ", Enum.GetValues<AirModelKind>().Skip(1).Select(kind => FormattableString.Invariant($"{kind} {cell.Ratio(kind):0.00}")));
                Console.WriteLine(FormattableString.Invariant($"{regime} {ZoneForecaster.AllAhead[h].TotalMinutes:0} min ({cell.Count}): {ratios}"));
            }
        }
    }

    private static void PrintRow(string regime, TimeSpan ahead, IReadOnlyList<ForecastScore> scores)
    {
        var told = scores.Sum(s => s.Told);
        double mae = scores.Sum(s => s.MaeKelvins * s.Told) / told, stays = scores.Sum(s => s.PersistenceMaeKelvins * s.Told) / told;
        var intervals = scores.Sum(s => s.IntervalsTold);
        var held = scores.Where(s => s.IntervalsTold > 0).Sum(s => s.Coverage * s.IntervalsTold) / intervals;
        var rungs = string.Join(", ", scores.GroupBy(s => s.Model).OrderByDescending(g => g.Count()).Select(g => g.Key.ToString()));
        Console.WriteLine(FormattableString.Invariant(
            $"| {regime} | {ahead.TotalMinutes:0} min | {told} | {mae:0.000} | {stays:0.000} | {1 - (mae / stays):0.00} | {100 * held:0.0} % | {(regime == "all" ? "" : rungs)} |"));
    }

    private static ForecastScore Minus(ForecastScore late, ForecastScore early)
    {
        var told = late.Told - early.Told;
        var intervals = late.IntervalsTold - early.IntervalsTold;
        double Sum(double mae, ForecastScore score) => score.Told == 0 ? 0 : mae * score.Told;
        double Held(ForecastScore score) => score.IntervalsTold == 0 ? 0 : score.Coverage * score.IntervalsTold;
        return late with
        {
            Told = told,
            MaeKelvins = (Sum(late.MaeKelvins, late) - Sum(early.MaeKelvins, early)) / told,
            PersistenceMaeKelvins = (Sum(late.PersistenceMaeKelvins, late) - Sum(early.PersistenceMaeKelvins, early)) / told,
            IntervalsTold = intervals,
            Coverage = intervals == 0 ? double.NaN : (Held(late) - Held(early)) / intervals,
        };
    }
}
