using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Scoreboard;

/// <summary>How right the holds were, what they cost and what they missed.</summary>
public sealed class ScoreReportTests
{
    private static readonly Cell Cell = WithRates(new Rates(150, 9000, "EUR"));

    private readonly Told told = new(Cell);

    [Fact]
    public void A_hold_lasts_from_the_outlook_that_shows_it_to_the_one_that_ends_it_and_waits_from_the_request_on()
    {
        told.Outlook(0, "S1", "ready").Outlook(10, "S1", "hold").Answer(25, "S1", "HOLD").Outlook(40, "S1", "hold", 0.8).Outlook(55, "S1", "ready");

        var hold = Assert.Single(told.Report().Holds);
        Assert.Equal((Told.At(10), Told.At(55), Told.At(25)), (hold.Begin, hold.End, hold.AskedAt));
        Assert.Equal(0.8, hold.Prediction!.Probability);
        Assert.Equal(new Interval(30, 45), told.Report().Held.MinutesLost);
        // Common practice: half an hour at 150/h is 75, three quarters 112.5.
        Assert.Equal(new MoneyRange(75, 112.5, "EUR"), told.Report().Held.Cost);
    }

    [Fact]
    public void An_answer_holds_at_once_though_its_outlook_stands_a_line_later()
    {
        told.Outlook(0, "S1", "ready").Answer(5, "S1", "HOLD").Outlook(5, "S1", "hold").Outlook(15, "S2", "hold").Outlook(20, "", "no job");

        Assert.Equal([("S2", 5.0), ("S1", 10.0)], told.Report().Holds.Select(hold => (hold.Work.Serial, hold.Stood(Told.At(60)).TotalMinutes)));
    }

    [Fact]
    public void A_measurement_decides_its_hold_and_the_first_that_decides_counts()
    {
        told.Outlook(0, "S1", "hold").Measured(5, "S1", 12).Measured(6, "S1", 15).Measured(7, "S1", 2).Outlook(7, "S1", "ready")
            .Outlook(10, "S2", "hold").Measured(15, "S2", 8).Outlook(15, "S2", "ready")
            .Outlook(20, "S3", "hold").Measured(25, "S3", 12).Outlook(25, "S3", "ready")
            .Outlook(30, "S4", "hold").Outlook(35, "S4", "bypassed");

        var held = told.Report().Held;
        Assert.Equal((4, 1, 1, 1, 1, 1), (held.Holds, held.Confirmed, held.Refuted, held.Undecided, held.NotMeasured, held.Overridden));
        Assert.Null(held.ConfirmedShare);
        Assert.Null(held.ConfirmedBetween);
        Assert.Equal(new Interval(0, 5), held.MinutesOfRefuted);
        Assert.Equal(new MoneyRange(0, 9000, "EUR"), held.Spared);
    }

    // R: prop.test(4, 5, correct = FALSE) gives 0.3755, 0.9638 (Wilson's interval; from memory).
    [Fact]
    public void Five_decided_holds_are_enough_to_say_how_often_a_hold_is_right_and_how_sure_that_is()
    {
        for (var part = 0; part < 5; part++)
        {
            told.Outlook(part * 10, $"S{part}", "hold").Measured((part * 10) + 5, $"S{part}", part == 0 ? 5 : 20).Outlook((part * 10) + 6, $"S{part}", "ready");
        }

        var held = told.Report().Held;
        Assert.Equal(0.8, held.ConfirmedShare);
        Assert.Equal(0.3755, held.ConfirmedBetween!.Value.Low, 1e-4);
        Assert.Equal(0.9638, held.ConfirmedBetween!.Value.High, 1e-4);
    }

    [Fact]
    public void What_a_shadow_kept_would_have_been_held_and_was_not()
    {
        told.AsShadow().Outlook(0, "S1", "hold").Measured(5, "S1", 20).Outlook(10, "S1", "ready");

        Assert.Equal((0, 1, 1), (told.Report().Held.Holds, told.Report().WouldHaveHeld.Holds, told.Report().WouldHaveHeld.Confirmed));
    }

    [Fact]
    public void Without_rates_there_are_minutes_and_no_money()
    {
        var plain = new Told(SmallCell.Of()).Outlook(0, "S1", "hold").Outlook(10, "S1", "ready").Report();

        Assert.Equal((10.0, null, null), (plain.Held.MinutesLost.High, plain.Held.Cost, plain.Inspection.Cost));
    }

    // The 12 holes lie at 400 mm; a scale of 25 µm/m moves each by 10 µm outwards, diametral 20 µm, against a budget of 18 µm.
    [Fact]
    public void A_pattern_that_grew_beyond_the_budget_without_a_hold_is_a_miss()
    {
        told.Outlook(0, "S1", "ready", 0.01, 3).Cut(5, "S1").Inspected(100, Grown("S1", 25))
            .Outlook(200, "S2", "ready", 0.02, 3).Cut(205, "S2").Inspected(300, Grown("S2", 10))
            .Outlook(400, "S3", "hold", 0.6, 20).Outlook(410, "S3", "bypassed").Cut(415, "S3").Inspected(500, Grown("S3", 25));

        var report = told.Report();
        var miss = Assert.Single(report.Inspection.Misses);
        Assert.Equal(("S1", "holes", ThermalSource.Pattern, true), (miss.Work.Serial, miss.Feature, miss.Thermal.From, miss.InTolerance));
        Assert.Equal(20, miss.Thermal.Micrometres, 1e-6);
        Assert.Equal((3, 0, new MoneyRange(0, 0, "EUR")), (report.Inspection.Features, report.Inspection.NotKnown, report.Inspection.Cost));
        Assert.Equal(2, report.Cases);
    }

    [Fact]
    public void A_deviation_alone_has_no_cause_and_is_said_as_not_known()
    {
        told.Cut(5, "S1").Inspected(100, new InspectionValue("S1", "40", "M1", Feature, 25) { Part = "D-1" });

        Assert.Equal((0, 1), (told.Report().Inspection.Misses.Count, told.Report().Inspection.NotKnown));
    }

    // Five cases by hand: held at 0.9 right, 0.6 right, 0.4 wrong; cut at 0.2 though it left the budget, cut at 0.05 and it did not.
    [Fact]
    public void Precision_and_recall_follow_from_the_cases_whose_outcome_is_known()
    {
        told.Outlook(0, "A", "hold", 0.9).Measured(1, "A", 20).Outlook(2, "A", "ready")
            .Outlook(10, "B", "hold", 0.6).Measured(11, "B", 20).Outlook(12, "B", "ready")
            .Outlook(20, "C", "hold", 0.4).Measured(21, "C", 1).Outlook(22, "C", "ready")
            .Outlook(30, "D", "watch", 0.2, 9).Cut(31, "D").Inspected(60, Grown("D", 30))
            .Outlook(40, "E", "watch", 0.05, 3).Cut(41, "E").Inspected(61, Grown("E", 1));

        var table = told.Report().Thresholds.ToDictionary(row => row.Threshold, row => (row.Precision, row.Recall));
        Assert.Equal((3 / 5.0, 1.0), table[0.05]);
        Assert.Equal((3 / 4.0, 1.0), table[0.2]);
        Assert.Equal((2 / 3.0, 2 / 3.0), table[0.3]);
        Assert.Equal((1.0, 2 / 3.0), table[0.5]);
        Assert.Equal((1.0, 1 / 3.0), table[0.9]);
    }

    private static Feature Feature => Cell.Parts[0].Features[0];

    private static Cell WithRates(Rates rates)
    {
        var plain = SmallCell.Of(features: Some.Holes());
        return new Cell(plain.Description with { Policies = plain.Description.Policies with { Rates = rates } });
    }

    private static InspectionValue[] Grown(string serial, double scale) =>
    [
        .. ((PositionFeature)Feature).Points.Select((point, index) => new InspectionValue(
            serial, "40", "M1", Feature, 2 * double.Hypot(point.X, point.Y) * scale / 1000)
        {
            Part = "D-1", Hole = index + 1, DxMicrometres = point.X * scale / 1000, DyMicrometres = point.Y * scale / 1000,
        }),
    ];
}
