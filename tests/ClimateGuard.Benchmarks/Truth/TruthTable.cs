using System.Globalization;
using ClimateGuard.Thermal;

namespace ClimateGuard.Benchmarks.Truth;

/// <summary>The figures of the truth report, as tables for its README.</summary>
internal static class TruthTable
{
    private const int MostMissed = 40;

    public static void Print(IReadOnlyList<ScoredRequest> all, TextWriter to)
    {
        ScoredRequest[] first = [.. all.Where(r => r.First)];
        to.WriteLine();
        to.WriteLine("| figure | target | first request of each job | every request |");
        to.WriteLine("| --- | --- | --- | --- |");
        Row(to, "true exceedances stopped (hold, measure first or not known)", "≥ 97 %", first, all, r => r.Truth.Exceeds, r => r.Stopped);
        Row(to, "of these by hold or measure first", "", first, all, r => r.Truth.Exceeds, r => r.Answer.Answer is Answer.Hold or Answer.Measure);
        Row(to, "full holds right", "≥ 90 %", first, all, r => r.Answer.Answer == Answer.Hold, r => r.Truth.Exceeds);
        Row(to, "safe cuts let go at once", "≥ 92 %", first, all, r => !r.Truth.Exceeds, r => r.LetGo);
        Row(to, "answered not known", "", first, all, _ => true, r => r.Answer.Answer == Answer.Unknown);
        foreach (var limit in new[] { 1.0, 0.5 }) Air(to, limit, first, all);
        Earliest(to, first, all);
        Reliability(to, all);
        Missed(to, all);
    }

    private static void Air(TextWriter to, double limit, ScoredRequest[] first, IReadOnlyList<ScoredRequest> all)
    {
        var name = string.Create(CultureInfo.InvariantCulture, $"air limit ±{limit:0.0} K: ");
        Row(to, name + "true exceedances stopped", "", first, all, r => r.Truth.Exceeds, r => Math.Abs(r.AirOffset) > limit);
        Row(to, name + "alarms right", "", first, all, r => Math.Abs(r.AirOffset) > limit, r => r.Truth.Exceeds);
        Row(to, name + "safe cuts let go", "", first, all, r => !r.Truth.Exceeds, r => Math.Abs(r.AirOffset) <= limit);
    }

    private static void Row(
        TextWriter to, string name, string target, IReadOnlyList<ScoredRequest> first, IReadOnlyList<ScoredRequest> all, Func<ScoredRequest, bool> of, Func<ScoredRequest, bool> good) =>
        to.WriteLine($"| {name} | {target} | {Share(first, of, good)} | {Share(all, of, good)} |");

    private static string Share(IReadOnlyList<ScoredRequest> all, Func<ScoredRequest, bool> of, Func<ScoredRequest, bool> good)
    {
        var whole = all.Count(of);
        var part = all.Count(r => of(r) && good(r));
        return whole == 0 ? "none" : string.Create(CultureInfo.InvariantCulture, $"{100.0 * part / whole:0.0} % ({part} of {whole})");
    }

    private static void Earliest(TextWriter to, IReadOnlyList<ScoredRequest> first, IReadOnlyList<ScoredRequest> all)
    {
        to.WriteLine();
        to.WriteLine("| earliest safe time of held cuts | target | first request of each job | every request |");
        to.WriteLine("| --- | --- | --- | --- |");
        to.WriteLine($"| median error | ≤ 15 min | {Error(first)} | {Error(all)} |");
        to.WriteLine($"| 80 % range covers the truth | 72–88 % | {Cover(first)} | {Cover(all)} |");
        to.WriteLine($"| truth beyond what was waited for, not scored | | {first.Count(r => r.Truth.Exceeds && r.TrulySafe is null)} | {all.Count(r => r.Truth.Exceeds && r.TrulySafe is null)} |");
    }

    private static IEnumerable<(SafeAt Start, double True, double Shift)> Known(IEnumerable<ScoredRequest> all) =>
        from r in all
        where r.Truth.Exceeds && r.TrulySafe is not null && r.Start is SafeAt
        select ((SafeAt)r.Start!, r.TrulySafe!.Value.TotalMinutes, (r.StartFrom - r.Ask.Time).TotalMinutes);

    private static string Error(IReadOnlyList<ScoredRequest> all)
    {
        double[] errors = [.. Known(all).Where(k => k.Start.Median is not null).Select(k => Math.Abs(k.Shift + k.Start.Median!.Value.TotalMinutes - k.True)).Order()];
        return errors.Length == 0 ? "none" : string.Create(CultureInfo.InvariantCulture, $"{errors[errors.Length / 2]:0.0} min ({errors.Length})");
    }

    private static string Cover(IReadOnlyList<ScoredRequest> all)
    {
        (SafeAt Start, double True, double Shift)[] known = [.. Known(all)];
        var inside = known.Count(k => k.True >= k.Shift + (k.Start.Low?.TotalMinutes ?? double.MaxValue) - 1 && k.True <= k.Shift + (k.Start.High?.TotalMinutes ?? double.MaxValue) + 1);
        return known.Length == 0 ? "none" : string.Create(CultureInfo.InvariantCulture, $"{100.0 * inside / known.Length:0.0} % ({inside} of {known.Length})");
    }

    private static void Reliability(TextWriter to, IReadOnlyList<ScoredRequest> all)
    {
        double[] edges = [0, 0.02, 0.10, 0.20, 0.30, 0.50, 0.70, 0.90, 1.0000001];
        to.WriteLine();
        to.WriteLine("| probability said | requests | mean said | truly out |");
        to.WriteLine("| --- | --- | --- | --- |");
        for (var i = 0; i + 1 < edges.Length; i++)
        {
            ScoredRequest[] bin = [.. all.Where(r => r.Answer.Worst is { } w && w.Probability >= edges[i] && w.Probability < edges[i + 1])];
            if (bin.Length == 0) continue;
            to.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"| {edges[i]:0.00}–{Math.Min(1, edges[i + 1]):0.00} | {bin.Length} | {bin.Average(r => r.Answer.Worst!.Probability):0.000} | {bin.Count(r => r.Truth.Exceeds) / (double)bin.Length:0.000} |"));
        }
    }

    private static void Missed(TextWriter to, IReadOnlyList<ScoredRequest> all)
    {
        to.WriteLine();
        to.WriteLine("| let go, but truly out | machine, part | feature | truly µm of budget | said µm ± u, P |");
        to.WriteLine("| --- | --- | --- | --- | --- |");
        foreach (var r in all.Where(r => r.Truth.Exceeds && r.LetGo).OrderByDescending(r => r.Truth.Share).Take(MostMissed))
        {
            to.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"| week {r.Seed}, {r.Ask.Time:ddd HH:mm} | {r.Ask.Machine} {r.Ask.Part} | {r.Truth.Feature} | {r.Truth.WorstMicrometres:0.0} of {r.Truth.BudgetMicrometres:0.0} | {r.Answer.Worst?.Feature} {r.Answer.Worst?.WorstMicrometres:0.0} ± {r.Answer.Worst?.UMicrometres:0.0}, {r.Answer.Worst?.Probability:0.000} |"));
        }

        to.WriteLine();
        to.WriteLine("| held, but truly in | machine, part | feature | truly µm of budget | said µm ± u, P |");
        to.WriteLine("| --- | --- | --- | --- | --- |");
        foreach (var r in all.Where(r => !r.Truth.Exceeds && r.Answer.Answer == Answer.Hold).OrderBy(r => r.Truth.Share).Take(MostMissed))
        {
            to.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"| week {r.Seed}, {r.Ask.Time:ddd HH:mm}, {r.Answer.ReasonCode} | {r.Ask.Machine} {r.Ask.Part} | {r.Truth.Feature} | {r.Truth.WorstMicrometres:0.0} of {r.Truth.BudgetMicrometres:0.0} | {r.Answer.Worst?.Feature} {r.Answer.Worst?.WorstMicrometres:0.0} ± {r.Answer.Worst?.UMicrometres:0.0}, {r.Answer.Worst?.Probability:0.000} |"));
        }
    }
}
