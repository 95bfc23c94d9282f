using ClimateGuard.Plant;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Pages.Words;

namespace ClimateGuard.Tests.Worker.Pages;

public sealed class WordsTests
{
    private static Feature Feature(string part, int index = 0) => InventedCell.Cell.FindPart(part)!.Features[index];

    [Theory]
    [InlineData(0, "fewer than 1 in 100")]
    [InlineData(0.0049, "fewer than 1 in 100")]
    [InlineData(0.0051, "1 in 100")]
    [InlineData(0.125, "13 in 100")]
    [InlineData(0.9, "90 in 100")]
    [InlineData(0.994, "99 in 100")]
    [InlineData(1, "more than 99 in 100")]
    [InlineData(double.NaN, "not known")]
    [InlineData(-0.1, "not known")]
    public void A_probability_is_said_as_so_many_in_a_hundred(double probability, string words) =>
        Assert.Equal(words, FrequencyWords.Of(probability));

    [Theory]
    [InlineData(31.2, 18, "31")]
    [InlineData(9.94, 18, "9.9")]
    [InlineData(-4.02, 18, "−4.0")]
    [InlineData(17.6, 17.5, "17.6")]
    [InlineData(18.4, 18, "18.4")]
    [InlineData(-0.04, 18, "0.0")]
    [InlineData(double.NaN, 18, "–")]
    public void An_effect_is_rounded_unless_that_hides_on_which_side_of_the_budget_it_lies(double effect, double budget, string words) =>
        Assert.Equal(words, Numbers.Effect(effect, budget));

    [Fact]
    public void Features_are_named_as_the_shop_names_them()
    {
        Assert.Equal("24 holes on ⌀900", FeatureWords.Name(Feature("FD-1100"), "pattern"));
        Assert.Equal("pilot 700 mm", FeatureWords.Name(Feature("FD-1100", 1), "pilot"));
        Assert.Equal("groove depth 6 mm", FeatureWords.Name(Feature("VR-780", 2), "groove-depth"));
        Assert.Equal("bores distance 112.5 mm", FeatureWords.Name(Feature("PH-340"), "bores"));
        Assert.Equal("old bore", FeatureWords.Name(null, "old-bore"));
        Assert.Equal("3 holes, plate", FeatureWords.Name(
            new PositionFeature
            {
                Id = "plate", ToleranceMillimetres = 0.05, Budget = BudgetRule.Absolute(10),
                Points = [new PatternPoint(10, 0), new PatternPoint(100, 0), new PatternPoint(100, 200)],
            },
            "plate"));
    }

    [Fact]
    public void The_headline_states_the_worst_of_the_cut_against_the_budget()
    {
        var outlook = InventedCell.Feature("pattern", 2, 10, 2, 18, 0.9, 12, 20, 31, 30);
        Assert.Equal("24 holes on ⌀900: 31 µm of 18 µm budget", FeatureWords.Headline(Feature("FD-1100"), outlook));
        Assert.Equal("12 µm now, 31 µm after 10 min of the cut", FeatureWords.Course(Feature("FD-1100"), outlook));
        Assert.Null(FeatureWords.Course(Feature("FD-1100"), outlook with { EffectMicrometres = 30.5 }));
    }

    [Fact]
    public void Sizes_have_a_sign_and_positions_have_none()
    {
        var outlook = InventedCell.Feature("groove", 0, -14.6, 1, 7.5, 0.99);
        Assert.Equal("groove 690 mm: −15 µm of 7.5 µm budget", FeatureWords.Headline(Feature("VR-780"), outlook));
        Assert.Equal("smaller at 20 °C", FeatureWords.Direction(Feature("VR-780"), -14.6));
        Assert.Equal("deeper at 20 °C", FeatureWords.Direction(Feature("VR-780", 2), 3));
        Assert.Equal("+4.0", FeatureWords.Effect(Feature("VR-780"), 4, 7.5));
        Assert.Equal("4.0", FeatureWords.Effect(Feature("FD-1100"), 4, 7.5));
        Assert.Null(FeatureWords.Direction(Feature("FD-1100"), 4));
    }

    [Fact]
    public void Times_stand_on_the_clock_of_the_cell()
    {
        var time = CellTime.Of("Europe/Vienna");
        var now = InventedCell.TenPastTen;
        Assert.Equal("10:05", time.Clock(now));
        Assert.Equal("Thu 10:05", time.DayAndClock(now));
        Assert.Equal("10:35", time.Near(now.AddMinutes(30), now));
        Assert.Equal("tomorrow 00:05", time.Near(now.AddHours(14), now));
        Assert.Equal("yesterday 23:05", time.Near(now.AddHours(-11), now));
        Assert.Equal("Sun 10:05", time.Near(now.AddDays(3), now));
        Assert.Equal("10 Dec 10:05", time.Near(now.AddDays(14), now));
        Assert.Equal("12:05", time.Clock(new DateTimeOffset(2026, 7, 1, 10, 5, 0, TimeSpan.Zero)));
    }

    [Fact]
    public void An_unknown_time_zone_gives_utc_and_says_so()
    {
        var time = CellTime.Of("Nowhere/Town");
        Assert.Equal("Thu 09:05 UTC", time.DayAndClock(InventedCell.TenPastTen));
        Assert.Equal("09:35 UTC", time.Near(InventedCell.TenPastTen.AddMinutes(30), InventedCell.TenPastTen));
    }

    [Theory]
    [InlineData(4, "4 s")]
    [InlineData(59.7, "1 min")]
    [InlineData(1500, "25 min")]
    [InlineData(3600, "1 h")]
    [InlineData(8100, "2 h 15 min")]
    [InlineData(100_800, "1 d 4 h")]
    public void A_length_of_time_has_two_units_at_most(double seconds, string words) =>
        Assert.Equal(words, CellTime.Length(TimeSpan.FromSeconds(seconds)));

    [Fact]
    public void The_header_says_whether_readings_come_in()
    {
        var cell = InventedCell.At(InventedCell.TenPastTen);
        Assert.Equal("4 of 7 sensors in use", ReadingsWords.Of(cell, true));
        Assert.Equal("broker: connection lost", ReadingsWords.Of(cell, false));
        var mute = cell with { Counts = cell.Counts with { ReceivedPerSecond = 0 } };
        Assert.Equal("no readings in the last 10 s", ReadingsWords.Of(mute, null));
        Assert.True(ReadingsWords.IsFault(mute, true));
    }

    [Fact]
    public void Sensors_are_placed_and_valued_in_words()
    {
        Assert.Equal("coolant, M3", SensorWords.Place(InventedCell.Cell.Sensors[2]));
        Assert.Equal("chilled water", SensorWords.Place(InventedCell.Cell.Sensors[5]));
        Assert.Equal("open", SensorWords.Value(SensorQuantity.Contact, 1));
        Assert.Equal("45 %", SensorWords.Value(SensorQuantity.Fraction, 0.45));
        Assert.Equal("23.4 °C", SensorWords.Value(SensorQuantity.Temperature, 23.4));
        Assert.Equal("–", SensorWords.Value(SensorQuantity.Temperature, double.NaN));
        Assert.Equal("set aside", SensorWords.Word(SensorState.Quarantined));
    }
}
