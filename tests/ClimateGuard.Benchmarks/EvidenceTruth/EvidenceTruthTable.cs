using System.Globalization;
using ClimateGuard.Evidence;

namespace ClimateGuard.Benchmarks.EvidenceTruth;

/// <summary>Verdicts against the truth, as tables for the README.</summary>
internal static class EvidenceTruthTable
{
    private const int MostListed = 60;

    private static readonly (string Name, Func<double, bool> Is)[] Shares =
    [
        ("wrong sign or < 20 %", share => share < 0.2), ("20–50 %", share => share is >= 0.2 and < 0.5), ("50–70 %", share => share is >= 0.5 and < 0.7),
        ("70–130 %", share => share is >= 0.7 and <= 1.3), ("> 130 %", share => share > 1.3),
    ];

    public static void Print(IReadOnlyList<JudgedFeature> all, TextWriter to)
    {
        JudgedFeature[] ordinary = [.. all.Where(one => one.Case.Length == 0)];
        Levels(to, "all inspected features but the scripted cases, by the true thermal share of the deviation", ordinary);
        Levels(to, "of these out of tolerance", [.. ordinary.Where(one => one.OutOfTolerance)]);
        Figures(to, all);
        Scripted(to, all);
        Listed(to, "claims of level 4 or 5 that are not true", all.Where(one => one.Level >= VerdictLevel.ProbablyMainCause && !one.MainlyThermal));
        Listed(to, "excluded, but mainly thermal", all.Where(one => one.Level == VerdictLevel.Excluded && one.MainlyThermal));
        Listed(to, "truly thermal and worth asking, below level 3", all.Where(one => one.Level < VerdictLevel.Contributed && one.TrulyThermal && one.WorthAsking && one.Case.Length == 0));
        Stops(to, all);
    }

    private static void Levels(TextWriter to, string title, JudgedFeature[] of)
    {
        to.WriteLine();
        to.WriteLine($"| {title} ({of.Length}) | {string.Join(" | ", Shares.Select(share => share.Name))} |");
        to.WriteLine($"| --- |{string.Concat(Shares.Select(_ => " --- |"))}");
        foreach (var level in Enum.GetValues<VerdictLevel>())
        {
            to.WriteLine($"| {(int)level} {Word(level)} | {string.Join(" | ", Shares.Select(share => of.Count(one => one.Level == level && share.Is(one.Share)).ToString(CultureInfo.InvariantCulture)))} |");
        }
    }

    private static void Figures(TextWriter to, IReadOnlyList<JudgedFeature> all)
    {
        to.WriteLine();
        to.WriteLine("| figure | target | all | out of tolerance |");
        to.WriteLine("| --- | --- | --- | --- |");
        Row(to, "claims of level 4 or 5 true (temperature made more than half)", "≥ 95 %", all, one => one.Level >= VerdictLevel.ProbablyMainCause, one => one.MainlyThermal);
        Row(to, "the same, true only from 70 to 130 %", "", all, one => one.Level >= VerdictLevel.ProbablyMainCause, one => one.TrulyThermal);
        Row(to, "claims of level 5 true (more than half)", "", all, one => one.Level == VerdictLevel.Confirmed, one => one.MainlyThermal);
        Row(to, "claims of level 3 true (20 % or more)", "", all, one => one.Level == VerdictLevel.Contributed, one => one.Share is >= 0.2 and < 1.5);
        Row(to, "\"excluded\" true (less than half)", "", all, one => one.Level == VerdictLevel.Excluded, one => !one.MainlyThermal);
        Row(to, "truly thermal (70 to 130 %) and worth asking: level ≥ 3", "≥ 90 %", all, one => one.TrulyThermal && one.WorthAsking && one.Case.Length == 0, one => one.Level >= VerdictLevel.Contributed);
        Row(to, "the same: level ≥ 4", "", all, one => one.TrulyThermal && one.WorthAsking && one.Case.Length == 0, one => one.Level >= VerdictLevel.ProbablyMainCause);
        Row(to, "truly thermal, every deviation however small: level ≥ 3", "", all, one => one.TrulyThermal && one.Case.Length == 0, one => one.Level >= VerdictLevel.Contributed);
    }

    private static void Row(TextWriter to, string name, string target, IReadOnlyList<JudgedFeature> all, Func<JudgedFeature, bool> of, Func<JudgedFeature, bool> good) =>
        to.WriteLine($"| {name} | {target} | {Share(all, of, good)} | {Share([.. all.Where(one => one.OutOfTolerance)], of, good)} |");

    private static string Share(IReadOnlyList<JudgedFeature> all, Func<JudgedFeature, bool> of, Func<JudgedFeature, bool> good)
    {
        var whole = all.Count(of);
        var part = all.Count(one => of(one) && good(one));
        return whole == 0 ? "none" : string.Create(CultureInfo.InvariantCulture, $"{100.0 * part / whole:0.0} % ({part} of {whole})");
    }

    private static void Scripted(TextWriter to, IReadOnlyList<JudgedFeature> all)
    {
        to.WriteLine();
        to.WriteLine("| scripted case | may reach | features | 0 | 1 | 2 | 3 | 4 | 5 |");
        to.WriteLine("| --- | --- | --- | --- | --- | --- | --- | --- | --- |");
        foreach (var (name, most, of) in new (string, int, Func<JudgedFeature, bool>)[]
        {
            ("PC-620 after the wrong calibration, 14 µm", 1, one => one.Case == "batch"),
            ("PH-340 of operator B in cooler nights", 2, one => one.Case == "nights" && one.Said.Inspected.Worst.Device.EndsWith('B')),
            ("PH-340 of operator A by day", 2, one => one.Case == "nights" && one.Said.Inspected.Worst.Device.EndsWith('A')),
        })
        {
            JudgedFeature[] found = [.. all.Where(of)];
            to.WriteLine($"| {name} | {most} | {found.Length} | {string.Join(" | ", Enum.GetValues<VerdictLevel>().Select(level => found.Count(one => one.Level == level).ToString(CultureInfo.InvariantCulture)))} |");
        }

        Listed(to, "scripted cases above their level", all.Where(one => (one.Case == "batch" && one.Level > VerdictLevel.Excluded) || (one.Case == "nights" && one.Level > VerdictLevel.Possible)));
    }

    private static void Listed(TextWriter to, string title, IEnumerable<JudgedFeature> of)
    {
        JudgedFeature[] found = [.. of];
        to.WriteLine();
        to.WriteLine($"| {title}: {found.Length} | level | truly thermal of measured µm | said ± u µm | reasons |");
        to.WriteLine("| --- | --- | --- | --- | --- |");
        foreach (var one in found.Take(MostListed))
        {
            to.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"| block {one.Seed}, {one.Said.Inspected.Step.Machine} {one.Said.Serial} {one.Said.Inspected.Feature.Id}{(one.OutOfTolerance ? ", out" : "")} | {(int)one.Level} | {one.Thermal:0.0} of {one.Measured:0.0} | {one.Said.PredictedMicrometres:0.0} ± {one.Said.Recomputed?.UMicrometres:0.0} | {string.Join("; ", one.Said.Verdict.Reasons.Skip(1).Concat(one.Said.Verdict.Caps))}{(one.Said.Pattern is { Match: PatternMatch.Mismatch } pattern ? ": " + pattern.Why : "")} |"));
        }
    }

    // Why truly thermal deviations stay below 3, by the first words of what stopped them.
    private static void Stops(TextWriter to, IReadOnlyList<JudgedFeature> all)
    {
        to.WriteLine();
        to.WriteLine("| truly thermal and worth asking, below level 3, because | features |");
        to.WriteLine("| --- | --- |");
        foreach (var group in all.Where(one => one.Level < VerdictLevel.Contributed && one.TrulyThermal && one.WorthAsking && one.Case.Length == 0)
            .GroupBy(one => one.Said.Verdict is { Caps: [var cap, ..] } ? cap : one.Said.Verdict is { Reasons: [.., var reason] } ? reason : "").OrderByDescending(group => group.Count()).Take(20))
        {
            to.WriteLine($"| {group.Key} | {group.Count()} |");
        }
    }

    private static string Word(VerdictLevel level) => level == VerdictLevel.NotAssessable ? "not assessable" : VerdictWords.Of(level);
}
