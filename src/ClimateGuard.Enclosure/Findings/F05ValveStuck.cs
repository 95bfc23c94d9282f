namespace ClimateGuard.Enclosure;

/// <summary>F05: a valve does not follow its command.</summary>
public static class F05ValveStuck
{
    private const double UsualReach = 5.0;
    private const double OtherCoilKelvins = 1.0;

    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F05",
        Name = "valve stuck",
        Class = CauseClass.Cooling,
        Component = "cooling coil valve",
        Limits =
        [
            new("stuckOpenKelvin", 3.0, "common practice, no source"),
            new("lostResponseShare", 0.8, "common practice, no source: a slope under 20 % of the usual one"),
        ],
        LeastData = "15 min at a command of 80 % or more, or closed",
        OnAfter = TimeSpan.FromMinutes(60),
        OffAfter = TimeSpan.FromHours(2),
        Confounders = "no chilled or hot water; the coil already at its limit",
        FirstCheck = new("Stroke the valve from the controller and watch the stem.", "controller, eyes", "at the actuator", 8, "the stem does not move"),
        Source = "slope of supply temperature over command; APAR rules 3, 13, 19 and Guideline 36 FC7, FC13 (from memory)",
    };

    internal static IEnumerable<Assessment> Judge(HandlerCase known) => CoilSide.Both.Where(side => side.Command(known.Signals) is not null)
        .Select(side => Judge(known, side));

    private static Assessment Judge(HandlerCase known, CoilSide side)
    {
        var evidence = new List<Evidence>();
        var missing = new List<string>();
        var onset = Open(known, side, evidence);
        if (side == CoilSide.Cooling) Flat(known, evidence);
        onset ??= NoResponse(known, side, evidence, missing);
        return known.About(Cause, evidence, missing, onset) with { Component = side.Component, Words = $"{side.Noun} stuck" };
    }

    private static int? Open(HandlerCase known, CoilSide side, List<Evidence> evidence)
    {
        var limit = known.Limits.Of(Cause, "stuckOpenKelvin");
        var closed = known.Day.Coils.Where(b => side.Command(b) <= CoilBlock.ClosedCommand && side.OtherCommand(b) <= CoilBlock.ClosedCommand).ToList();
        if (closed.Count == 0) return null;
        var worst = closed.MaxBy(b => side.Pull(b, known.Baseline))!;
        var pull = side.Pull(worst, known.Baseline);
        evidence.Add(new(
            FormattableString.Invariant($"asked to be closed, the {side.Noun} still makes the air {Math.Max(0, pull):0.0} K {side.Does} (limit {limit:0.0} K)"),
            Math.Max(0, Weight.Of(pull, limit, Math.Min(1, worst.Block.Minutes / 30.0))), $"{side.Component} closed"));
        return pull >= limit ? closed.First(b => side.Pull(b, known.Baseline) >= limit).Block.From : null;
    }

    private static void Flat(HandlerCase known, List<Evidence> evidence)
    {
        var (share, range) = Coil.Slope(known);
        if (double.IsNaN(share) || known.Signals.Handler.OutdoorAir) return;
        var limit = known.Limits.Of(Cause, "lostResponseShare");
        evidence.Add(new(
            FormattableString.Invariant($"over {100 * range:0} % of command the supply air follows by {100 * share:0} % of what is usual"),
            Weight.Of(1 - share, limit - 0.05), "flat response"));
    }

    private static int? NoResponse(HandlerCase known, CoilSide side, List<Evidence> evidence, List<string> missing)
    {
        var asked = known.Day.Coils.Where(b => side.Command(b) >= 0.8 && side.OtherCommand(b) <= CoilBlock.ClosedCommand).ToList();
        var able = asked.Where(side.CanAct).ToList();
        if (able.Sum(b => b.Block.Minutes) < 30)
        {
            missing.Add(asked.Count > 0
                ? $"the {side.Noun} was asked to open while the entering air was too near the water for a coil to show anything"
                : $"the {side.Noun} was not asked to open by 80 % or more for 30 min, so that a lost response could show");
            return null;
        }

        if (known.Day.Coils.Where(b => b.BothClosed).Any(b => side.OtherSide.Pull(b, known.Baseline) >= OtherCoilKelvins))
        {
            missing.Add($"the other coil works against the {side.Noun} even when closed, so its response cannot be told");
            return null;
        }

        var learned = side.Reach(known.Baseline);
        var reach = double.IsNaN(learned) ? UsualReach : Math.Max(learned, UsualReach / 2);
        var response = Robust.Quantile(able.Select(b => side.Pull(b, known.Baseline)), 0.25);
        var lost = 1 - (response / reach);
        var limit = known.Limits.Of(Cause, "lostResponseShare");
        evidence.Add(new(
            FormattableString.Invariant($"at 80 % command or more the {side.Noun} moves the air by {response:0.0} K of the usual {reach:0.0} K"),
            Weight.Of(lost, limit, double.IsNaN(learned) ? 0.8 : 1), $"{side.Component} open"));
        return lost >= limit ? able[0].Block.From : null;
    }
}
