using System.Globalization;

namespace ClimateGuard.Enclosure;

/// <summary>Which published rules were true in a window, and for how long; they support a finding, they make none.</summary>
internal static class RuleTally
{
    private const int Step = 5;
    private const int Delay = 30;
    private const int LeastMinutes = 60;

    // Which rules speak for which cause and component; the sign of the temperature tells the coil.
    private static readonly Dictionary<(string, string), (int[] Apar, int[] Guideline)> Speaking = new()
    {
        [("F04", "cooling coil valve")] = ([1], [5]),
        [("F04", "heating coil valve")] = ([11, 12, 16, 17], [12]),
        [("F05", "heating coil valve")] = ([3], [7]),
        [("F05", "cooling coil valve")] = ([13, 19], [13]),
        [("F26", "outdoor air damper")] = ([2, 10, 18], [6, 10]),
    };

    /// <summary>Minutes in which each rule was true; APAR by its number, Guideline 36 by its number plus 100.</summary>
    public static IReadOnlyDictionary<int, int> Of(HandlerSignals signals)
    {
        var minutes = new Dictionary<int, int>();
        var running = 0;
        for (var minute = 0; minute + Step <= signals.Frame.Minutes; minute += Step)
        {
            running = signals.FanOn[minute] ? running + Step : 0;
            if (running <= Delay) continue;
            var sample = At(signals, minute);
            AparLimits limits = new();
            var rules = Apar.True(sample, limits)
                .Concat(Guideline36.True(sample, new Guideline36Limits(), Apar.ModeOf(sample, limits)).Select(number => 100 + number));
            foreach (var rule in rules) minutes[rule] = minutes.GetValueOrDefault(rule) + Step;
        }

        return minutes;
    }

    /// <summary>Whether any published rule could speak for it.</summary>
    public static bool Supports(Assessment assessment) =>
        assessment.Evidence.Count > 0 && Speaking.ContainsKey((assessment.Cause.Id, assessment.Component));

    /// <summary>The assessment with the published rules that support it.</summary>
    public static Assessment Support(Assessment assessment, IReadOnlyDictionary<int, int> minutes)
    {
        if (assessment.Evidence.Count == 0 || !Speaking.TryGetValue((assessment.Cause.Id, assessment.Component), out var rules)) return assessment;
        var named = rules.Apar.Where(r => minutes.GetValueOrDefault(r) >= LeastMinutes).Select(r => Say($"APAR rule {r} for {minutes[r]} min"))
            .Concat(rules.Guideline.Where(r => minutes.GetValueOrDefault(100 + r) >= LeastMinutes).Select(r => Say($"Guideline 36 FC{r} for {minutes[100 + r]} min")))
            .ToList();
        return named.Count == 0 ? assessment : assessment with
        {
            Evidence = [.. assessment.Evidence, new Evidence($"{string.Join(", ", named)} (rules from memory)", 0.5, $"{assessment.Component} published rules")],
        };
    }

    private static AirHandlerSample At(HandlerSignals s, int minute)
    {
        double Mean(double[]? row) => row is null ? double.NaN : RowMath.Mean(row, minute, Step);
        return new AirHandlerSample(
            Mean(s.Supply), Mean(s.Of("supplySetpoint")), Mean(s.Mixed), Mean(s.Return), Mean(s.Outdoor), Mean(s.Heating), Mean(s.Cooling), Mean(s.Damper));
    }

    private static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
