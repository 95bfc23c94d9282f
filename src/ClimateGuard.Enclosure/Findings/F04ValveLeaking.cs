namespace ClimateGuard.Enclosure;

/// <summary>F04: a valve lets water through although it is asked to be closed.</summary>
public static class F04ValveLeaking
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F04",
        Name = "valve leaks",
        Class = CauseClass.Cooling,
        Component = "cooling coil valve",
        Limits =
        [
            new("leakKelvin", 1.0, "common practice, no source; the rule is APAR rules 1, 7, 11 and 16 and Guideline 36 FC5, FC8, FC12 (from memory)"),
        ],
        LeastData = "20 min closed with the fan running, then 15 min to judge",
        OnAfter = TimeSpan.FromMinutes(35),
        OffAfter = TimeSpan.FromHours(2),
        Confounders = "offset between the supply and the mixed or return sensor: compare them with both coils isolated and the fan on",
        FirstCheck = new("Close the isolating valve of the coil and watch the supply temperature.", "hand wheel, thermometer", "at the coil", 10,
            "the supply temperature moves by more than 1 K within ten minutes"),
        Source = "energy balance over the closed coils; House, Vaezi-Nejad, Whitcomb (2001), APAR (from memory)",
    };

    internal static IEnumerable<Assessment> Judge(HandlerCase known) => CoilSide.Both.Where(side => side.Command(known.Signals) is not null)
        .Select(side => Judge(known, side));

    private static Assessment Judge(HandlerCase known, CoilSide side)
    {
        var limit = known.Limits.Of(Cause, "leakKelvin");
        var evidence = new List<Evidence>();
        var missing = new List<string>();
        int? onset = null;
        var closed = known.Day.Coils.Where(b => b.BothClosed).ToList();
        if (closed.Count > 0)
        {
            var worst = closed.MaxBy(b => side.Pull(b, known.Baseline))!;
            var pull = side.Pull(worst, known.Baseline);
            onset = pull >= limit ? closed.First(b => side.Pull(b, known.Baseline) >= limit).Block.From : null;
            evidence.Add(new(
                FormattableString.Invariant($"with both valves closed the supply air is {pull:0.0} K {side.Does} than the fan alone makes it (limit {limit:0.0} K)"),
                Weight.Of(pull, limit, Trust(worst.Block.Minutes)), $"{side.Component} closed"));
        }
        else
        {
            missing.Add($"both valves were never closed for 35 min with the fan running, so a leak of the {side.Noun} cannot be told");
        }

        if (side == CoilSide.Cooling && closed.Count == 0) BesideTheCommand(known, limit, evidence, missing);
        Against(known, side, limit, evidence);
        if (!known.Baseline.FanRise(1).Learned) missing.Add("no other day shows what the fan alone adds; 0 to 2.5 K was taken");
        return known.About(Cause, evidence, missing, onset) with { Component = side.Component, Words = $"{side.Noun} leaks" };
    }

    // A valve that is never closed still pulls the air down further than its command explains.
    private static void BesideTheCommand(HandlerCase known, double limit, List<Evidence> evidence, List<string> missing)
    {
        var (excess, minutes) = Coil.Excess(known);
        if (double.IsNaN(excess) || known.Signals.Handler.OutdoorAir) return;
        missing.Clear();
        HeatingAgainstIt(known, evidence);
        evidence.Add(new(
            FormattableString.Invariant($"at its lowest commands the supply air is {excess:0.0} K colder than usual at the same command (limit {limit:0.0} K)"),
            Math.Max(evidence.Count > 0 ? 0 : Weight.Least, Weight.Of(excess, limit, Trust(minutes / 4))), "strong coil"));
        Coil.FlatAgainst(known, evidence);
    }

    // The heater has to make up for a leak: it works as on no other day, and yet the supply air hardly gets warmer than the entering air.
    private static void HeatingAgainstIt(HandlerCase known, List<Evidence> evidence)
    {
        var usual = known.Baseline.Usually("heated", Coil.HeatedMinutes);
        var minutes = known.Number("heated", Coil.HeatedMinutes);
        if (double.IsNaN(minutes) || !usual.Learned) return;
        var rise = Coil.RiseWhileHeated(known.Signals);
        if (minutes < 30 || double.IsNaN(rise)) return;
        evidence.Add(new(
            FormattableString.Invariant($"with the cooling valve closed the heater worked for {minutes:0} min ({usual.Median:0} min on other days)"),
            Math.Clamp(Weight.Of(minutes - usual.Median, 60), 0, 5), "heater works"));
        evidence.Add(new(
            FormattableString.Invariant($"and still the supply air was only {rise:0.0} K warmer than the entering air for each 10 % of its command"), rise < 0.3 ? 5 : -3, "cold in spite of heating"));
    }

    // The other coil works, and still the air leaves on the wrong side.
    private static void Against(HandlerCase known, CoilSide side, double limit, List<Evidence> evidence)
    {
        var opposed = known.Day.Coils
            .Where(b => side.Command(b) <= CoilBlock.ClosedCommand && side.OtherCommand(b) >= 0.15)
            .Select(b => side.Pull(b, known.Baseline)).Where(pull => pull > limit).ToList();
        if (opposed.Count == 0) return;
        var usual = Robust.Median(opposed);
        evidence.Add(new(
            FormattableString.Invariant($"while {side.Other} is asked for, the supply air is {usual:0.0} K {side.Does} than the entering air and the fan explain"),
            Math.Min(4, Weight.Of(usual, limit, Math.Min(1, opposed.Count / 3.0))), $"{side.Component} against {side.Other}"));
    }

    private static double Trust(int minutes) => Math.Min(1, minutes / 30.0);
}
