using System.Globalization;
using ClimateGuard.Evidence;
using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Pages.Words;

/// <summary>The scoreboard in sentences: for its page and the command line.</summary>
internal static class ScoreWords
{
    public const string Held = "Held";
    public const string WouldHaveHeld = "Shadow: would have held";

    public static string Count(string what, HoldTally tally)
    {
        string[] parts =
        [
            $"{tally.Confirmed} confirmed", $"{tally.Refuted} refuted", $"{tally.Undecided} undecided", $"{tally.NotMeasured} not measured",
        ];
        var standing = tally.Standing > 0 ? $" {tally.Standing} {(tally.Standing == 1 ? "stands" : "stand")} still." : "";
        var overridden = tally.Overridden > 0 ? $" {tally.Overridden} ended by an override." : "";
        return $"{what}: {Times(tally.Holds)}; {string.Join(", ", parts)}.{standing}{overridden}";
    }

    public static string Share(HoldTally tally) => tally.ConfirmedShare is { } share && tally.ConfirmedBetween is { } between
        ? Text($"Of those a measurement decided, {tally.Confirmed} of {tally.Decided} were right ({share * 100:0} %; with 95 % confidence {between.Low * 100:0} to {between.High * 100:0} %).")
        : Text($"{tally.Decided} decided by a measurement: too few to say how often a hold is right ({HoldTally.FewestToSay} are needed).");

    public static string Lost(HoldTally tally) =>
        $"Lost: {Minutes(tally.MinutesLost)}{Money(tally.Cost)}, of them {Minutes(tally.MinutesOfRefuted)} for holds that were refuted.{Spared(tally)}";

    public static string Inspection(InspectionTally inspection)
    {
        if (inspection.Features == 0)
        {
            return "No inspection results came in: what was missed is not known.";
        }

        var missed = inspection.Misses.Count == 0 ? "none had" : inspection.Misses.Count == 1 ? "1 had" : Text($"{inspection.Misses.Count} had");
        var unknown = inspection.NotKnown > 0 ? Text($" {inspection.NotKnown} deviate by more than the budget, and how much of it is thermal is not known.") : "";
        var cost = inspection.Misses.Count > 0 && inspection.Cost is { } money ? $" Scrap among them: {Range(money)}." : "";
        return Text($"Of {inspection.Features} inspected features, {missed} a thermal part above the budget without a hold.") + unknown + cost;
    }

    public static string Air(AirLimitScore limit, ScoreReport report) => limit.MinutesKnown == 0
        ? Text($"Air limit ±{limit.LimitKelvins:0.0} K: the air was not known.")
        : Text($"Air limit ±{limit.LimitKelvins:0.0} K: {Count(limit.Activations, "alarm")}, {limit.MinutesInAlarm} min in alarm; in alarm for {limit.ConfirmedInAlarm} of {Confirmed(report)} confirmed exceedances and {limit.RefutedInAlarm} of {Refuted(report)} refuted holds.");

    public static string NoTool(ScoreReport report) =>
        Text($"No tool: nothing held, nothing lost by waiting; {Confirmed(report)} confirmed exceedances cut.");

    /// <summary>The numbers behind an outcome, with a comma before them; empty when nobody measured.</summary>
    public static string Numbers(HeldWork hold) => hold.Score is { } score
        ? $", {score.Measurement} {Measured(score)}"
        : "";

    public static int Confirmed(ScoreReport report) => report.Held.Confirmed + report.WouldHaveHeld.Confirmed;

    public static int Refuted(ScoreReport report) => report.Held.Refuted + report.WouldHaveHeld.Refuted;

    public static string Minutes(Interval minutes) => Ends(CellTime.Length(TimeSpan.FromMinutes(minutes.Low)), CellTime.Length(TimeSpan.FromMinutes(minutes.High)));

    public static string Range(MoneyRange money) => Ends(Amount(money.Low), Amount(money.High)) + " " + money.Currency;

    public static string Measured(HoldScore score) => Text(
        $"{Words.Numbers.SignedEffect(score.MeasuredMicrometres, score.BudgetMicrometres)} µm measured, {Words.Numbers.SignedEffect(score.PredictedMicrometres, score.BudgetMicrometres)} µm predicted, budget {Words.Numbers.Micrometres(score.BudgetMicrometres)} µm");

    private static string Spared(HoldTally tally) => tally.Confirmed > 0 && tally.Spared is { } spared
        ? $" The confirmed holds spared {Range(spared)} of scrap."
        : "";

    private static string Money(MoneyRange? money) => money is null ? "" : $" ({Range(money)})";

    private static string Amount(double amount) => amount.ToString("#,0", CultureInfo.InvariantCulture).Replace(',', ' ');

    private static string Ends(string low, string high) => low == high ? low : $"{low} to {high}";

    private static string Times(int count) => Count(count, "hold");

    private static string Count(int count, string what) => Text($"{count} {what}{(count == 1 ? "" : "s")}");

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
