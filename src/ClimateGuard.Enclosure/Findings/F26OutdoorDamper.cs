namespace ClimateGuard.Enclosure;

/// <summary>F26: the outdoor air damper does not stand where it is asked to stand.</summary>
public static class F26OutdoorDamper
{
    private const double SensorKelvins = 0.1;

    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F26",
        Name = "outdoor air damper stuck or leaking",
        Class = CauseClass.AirFlow,
        Component = "outdoor air damper",
        Limits =
        [
            new("shareDifference", 0.2, "common practice, no source; Guideline 36 FC6 has 0.30 (from memory)"),
            new("closedShareDifference", 0.04, "what two sensors of 0.1 K tell apart at 9 K difference"),
            new("leverKelvin", 5.0, "common practice, no source; APAR and Guideline 36 have 5.6 and 6 K (from memory)"),
            new("leastLeverKelvin", 3.0, "for a closed damper; below it 0.1 K of a sensor is too much of the share, and up to leverKelvin the limits widen"),
        ],
        LeastData = "45 min at one command with outdoor and return air 3 K apart, better 5 K",
        OnAfter = TimeSpan.FromMinutes(45),
        OffAfter = TimeSpan.FromHours(2),
        Confounders = "errors of the mixed, return and outdoor sensors grow as the temperatures come closer; stratified mixed air",
        FirstCheck = new("Look at the damper blades while the controller moves them from closed to open.", "torch, controller", "at the outdoor air intake", 10,
            "the blades do not follow, or do not close"),
        Source = "mixing balance (T_mixed − T_return)/(T_outdoor − T_return); APAR rules 2, 10, 18 and Guideline 36 FC6, FC10 (from memory)",
    };

    internal static IEnumerable<Assessment> Judge(HandlerCase known)
    {
        if (known.Signals.Damper is null) yield break;
        var evidence = new List<Evidence>();
        var missing = new List<string>();
        var lever = known.Limits.Of(Cause, "leverKelvin");
        var usable = known.Day.Dampers.Where(b => b.Possible && b.Lever >= LeastLever(known, b)).ToList();
        int? onset = null;
        if (usable.Sum(b => b.Block.Minutes) < 45)
        {
            missing.Add(Undecidable(known, lever));
        }
        else
        {
            onset = Compare(known, usable, evidence);
            NotSeen(known, usable, missing);
        }

        yield return known.About(Cause, evidence, missing, onset);
    }

    private static int? Compare(HandlerCase known, List<DamperBlock> usable, List<Evidence> evidence)
    {
        var groups = usable.GroupBy(b => (int)Math.Round(b.Command * 10)).Where(g => g.Sum(b => b.Block.Minutes) >= 45)
            .Select(g => (Worst: g.OrderBy(b => Ratio(known, b)).ElementAt((g.Count() - 1) / 2), Blocks: g)).ToList();
        if (groups.Count == 0) return null;
        var (worst, blocks) = groups.MaxBy(g => Ratio(known, g.Worst));
        var (expected, _, learned) = known.Baseline.OutdoorShare(worst);
        var ratio = Ratio(known, worst);
        evidence.Add(new(
            FormattableString.Invariant(
                $"at {100 * worst.Command:0} % command {100 * worst.Share:0} % of the air comes from outdoors, {100 * expected:0} % {(learned ? "on other days" : "expected")} (temperatures {worst.Lever:0.0} K apart)"),
            Weight.Of(ratio, 1, learned ? 1 : 0.9), "outdoor share"));
        return ratio >= 1 ? blocks.First(b => Ratio(known, b) >= 1).Block.From : null;
    }

    // At a closed outdoor damper no other damper can confuse the balance, so less of a lever will do.
    private static double LeastLever(HandlerCase known, DamperBlock block) =>
        known.Limits.Of(Cause, block.Command <= CoilBlock.ClosedCommand ? "leastLeverKelvin" : "leverKelvin");

    // The difference to what is expected, as a share of what may be.
    private static double Ratio(HandlerCase known, DamperBlock block)
    {
        var (expected, spread, learned) = known.Baseline.OutdoorShare(block);
        var closed = block.Command <= CoilBlock.ClosedCommand;
        var allowed = learned ? Math.Max(spread, known.Limits.Of(Cause, closed ? "closedShareDifference" : "shareDifference")) : spread;
        var widened = allowed * Math.Max(1, known.Limits.Of(Cause, "leverKelvin") / block.Lever);
        var least = 2.5 * Math.Sqrt(2) * SensorKelvins / block.Lever;
        return Math.Abs(Math.Clamp(block.Share, 0, 1) - expected) / Math.Max(widened, least);
    }

    private static string Undecidable(HandlerCase known, double lever)
    {
        if (known.Signals.Mixed is null) return "without a mixed air temperature the outdoor air damper cannot be judged";
        if (known.Signals.Outdoor is null || known.Signals.Return is null) return "without outdoor and return temperature the outdoor air damper cannot be judged";
        var widest = known.Day.Dampers.Select(b => b.Lever).DefaultIfEmpty(0).Max();
        return FormattableString.Invariant(
            $"outdoor and return air were at most {widest:0.0} K apart while the damper stood still with the fan on; {lever:0.0} K for 45 min are needed to tell where the damper stands");
    }

    private static void NotSeen(HandlerCase known, List<DamperBlock> usable, List<string> missing)
    {
        if (usable.All(b => b.Command > 0.02)) missing.Add("the outdoor air damper was never asked to close, so a leak cannot be told");
        if (usable.Max(b => b.Command) - usable.Min(b => b.Command) < 0.2)
            missing.Add("the outdoor air damper was asked to stand at one place only");
        if (known.Baseline.Days == 0) missing.Add("no other day shows how much outdoor air is usual");
    }
}
