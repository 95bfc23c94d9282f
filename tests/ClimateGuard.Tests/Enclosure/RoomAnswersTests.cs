using System.Text;
using System.Text.Json;
using ClimateGuard.Edges.Json;
using ClimateGuard.Enclosure;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Worker.Pages.Technician;

namespace ClimateGuard.Tests.Enclosure;

/// <summary>What a described room answers, what it does not tell, and in which words and fields.</summary>
public sealed class RoomAnswersTests
{
    private static readonly Shift[] Shifts = [new("early", new TimeOnly(6, 0), new TimeOnly(14, 0), Enum.GetValues<DayOfWeek>())];

    private static readonly SetBack Weekend =
        new(new WeekTime(DayOfWeek.Saturday, new TimeOnly(14, 30)), new WeekTime(DayOfWeek.Monday, new TimeOnly(5, 0)), new Celsius(22.6));

    private static readonly DescribedRoom Eventful = DescribedRoom.Of(
        CourseOf.Zone with { SetBacks = [Weekend] }, ReferenceDays.Play(7, eventful: true), Shifts, TimeZoneInfo.Utc);

    [Fact]
    public void An_eventful_week_answers_everything()
    {
        var answers = RoomAnswers.Of(Eventful, Shifts, 14);

        Assert.Empty(answers.NotTold);

        // 10 K of hall through the reference room's 280 W/K are 2.8 kW; the identified conductance may be a quarter off.
        Assert.Equal(2.8, answers.UsualDay!.LeastMarginKilowatts - answers.WarmDay!.LeastMarginKilowatts, 0.8);
        Assert.Equal(answers.MachineOnUsualDay!.HeatKilowatts, answers.UsualDay.LeastMarginKilowatts - answers.MachineOnUsualDay.MarginLeftKilowatts, 1e-9);
        Assert.InRange(answers.MachineOnWarmDay!.HeatKilowatts, 11, 15);

        // Recovery of the masses: three times the slow time constant of the reference room at full flow.
        Assert.Equal(3 * ReferenceDays.North.TimeConstants(1).Slow.TotalHours, answers.Recovery!.Mass.TotalHours, 0.25 * 3 * ReferenceDays.North.TimeConstants(1).Slow.TotalHours);
        var cost = Assert.Single(answers.SetBacks);
        Assert.Equal((new TimeOnly(6, 0), false), (cost.ShiftBegins!.Value, cost.AtMost));

        // From 2.6 K to 1.0 K with Cm/Gam = 70 MJ/K over 2.3 kW/K = 8.45 h: 8.1 h, and a little more while the air comes down; an hour of it is before the shift.
        Assert.InRange(cost.Cost.HoursLost, 6, 10);
    }

    [Fact]
    public void A_still_room_tells_nothing_that_rests_on_what_it_does_not_know_and_names_it()
    {
        var still = DescribedRoom.Of(CourseOf.Zone, ReferenceDays.Play(4, eventful: false, hallSwing: 0), Shifts, TimeZoneInfo.Utc);
        var answers = RoomAnswers.Of(still, Shifts, 14);

        Assert.Null(answers.WarmDay);
        Assert.Null(answers.MachineOnWarmDay);
        Assert.Null(answers.Recovery);
        Assert.Contains(answers.NotTold, why => why.StartsWith("A day with a hall 10 K warmer is not told, because", StringComparison.Ordinal)
            && why.Contains("the heat to and from the hall", StringComparison.Ordinal));
        Assert.Contains("No set-back is stated in the plant file (zones: setBacks) and none was seen.", RoomWords.Of(still, answers, 14));
        Assert.Contains(still.Found!.Intervals.Select(RoomWords.Parameter), line => line == "Heat that machines and slab hold: not known.");
    }

    [Fact]
    public void A_set_back_that_nobody_stated_is_seen_in_the_record()
    {
        var seen = DescribedRoom.Of(CourseOf.Zone, ReferenceDays.Play(3, eventful: true), Shifts, TimeZoneInfo.Utc).SetBacks;

        // The reference days keep 22.6 °C every second day from 23:00 until midnight and from midnight until 05:00 of the same day.
        var one = Assert.Single(seen);
        Assert.Equal((22.6, new TimeOnly(5, 0)), (one.Setpoint.Value, one.Until.Time));
    }

    [Fact]
    public void Too_short_a_record_says_how_much_is_needed()
    {
        var answers = RoomAnswers.Of(DescribedRoom.Of(CourseOf.Zone, ReferenceDays.Play(1, eventful: true), Shifts, TimeZoneInfo.Utc), Shifts, 14);

        Assert.Equal("24 h with air, supply and hall are too few to describe the room; 48 h are needed.", Assert.Single(answers.NotTold));
    }

    [Fact]
    public void The_words_say_what_is_left_and_what_lacks()
    {
        var day = new DesignDay(1.24, -0.31, TimeSpan.FromMinutes(210), 3.04, [], []);
        var answers = new RoomAnswers
        {
            WarmDay = day,
            MachineOnWarmDay = new OneMoreMachine(12.6, -9.56, 0.93, 1.2),
            MachineOnUsualDay = new OneMoreMachine(12.6, 2.44, 0, 1.2),
            Recovery = new Recovery(TimeSpan.FromMinutes(9), TimeSpan.FromHours(25)),
            SetBacks = [new SetBackAnswer(Weekend, new TimeOnly(6, 0), new SetBackCost(TimeSpan.FromMinutes(70), TimeSpan.FromMinutes(262), 3.37), false)],
        };

        Assert.Equal(
            [
                "With a hall 10 K warmer the air goes at most 1.2 K above and 0.3 K below its set point, at its limit for 3 h 30 min; 3.0 kW are left at the hardest hour.",
                "After 1.0 K too warm on such a day the air alone is back in 9 min; machines and slab take 1 d 1 h.",
                "One more machine of 14 kW on a usual day: 12.6 kW of heat; 2.4 kW are left and the set point is held.",
                "One more machine of 14 kW on the warm day: 12.6 kW of heat; 9.6 kW are lacking and the air stays 0.9 K too warm.",
                "Stated set-back Sat 14:30 to Mon 05:00 at 22.6 °C: the air is in its band 1 h 10 min after its end, machines and slab 4 h 22 min after its end; 3.4 h of the shift from 06:00 are lost.",
            ],
            RoomWords.Of(Eventful, answers, 14));
        var night = Weekend with { From = new WeekTime(DayOfWeek.Sunday, new TimeOnly(14, 30)) };
        var alike = answers with { SetBacks = [answers.SetBacks[0], answers.SetBacks[0] with { SetBack = night }] };
        Assert.StartsWith("Stated set-back Sat 14:30 to Mon 05:00 and 1 more like it, at 22.6 °C: ", RoomWords.Of(Eventful, alike, 14)[^1], StringComparison.Ordinal);
        Assert.Equal("Heat that machines and slab hold: 68 MJ/K (55.5 to 83).", RoomWords.Parameter(new ProfileInterval(RoomParameter.MassHeat, 68e6, 55.5e6, 83e6)));
        Assert.Equal(
            "On 2 days it had not seen it went wrong by 0.10 K in control, 0.35 K otherwise: more than 0.15 K in control or 0.3 K otherwise, so take its answers with care.",
            RoomWords.FreeRun(new RoomValidation(2, 0.10, 0.35)));
    }

    // Approved: a change here is a change of what scripts of others read.
    [Fact]
    public void The_answer_of_GET_room_has_the_fields_of_the_contract()
    {
        var known = Eventful with
        {
            Found = Eventful.Found! with
            {
                Intervals = [new ProfileInterval(RoomParameter.MassHeat, 68e6, 55.5e6, double.PositiveInfinity)], Validation = new RoomValidation(2, 0.1, double.NaN), Words = ["a word"],
            },
        };
        var day = new DesignDay(1.24, -0.31, TimeSpan.FromMinutes(210), 3.04, [], []);
        var answers = new RoomAnswers
        {
            UsualDay = day, MachineOnUsualDay = new OneMoreMachine(12.6, -9.56, 0.93, 1.2), Recovery = new Recovery(null, TimeSpan.FromHours(25)), NotTold = ["why"],
            SetBacks = [new SetBackAnswer(Weekend, null, new SetBackCost(TimeSpan.FromMinutes(70), null, 3.37), true)],
        };

        Assert.Equal(
            """
            {"before":"2026-06-08","zones":[{"zone":"N","parameters":[{"parameter":"massHeat","unit":"J/K","value":68000000,"low":55500000,"high":null,"identified":false}],"notIdentified":["a word"],"freeRun":{"days":2,"inControlK":0.1,"otherwiseK":null,"holds":true},"recovery":{"offK":1,"airMinutes":null,"massHours":25},"usualDay":{"mostK":1.24,"leastK":-0.31,"atCapacityHours":3.5,"marginKw":3.04,"oneMoreMachine":{"heatKw":12.6,"marginLeftKw":-9.56,"warmerK":0.93}},"warmDay":null,"setBacks":[{"from":"Sat 14:30","until":"Mon 05:00","setpointC":22.6,"stated":true,"shiftBegins":null,"airInBandMinutes":70,"massSettledMinutes":null,"hoursLost":3.37,"atMost":true}],"notTold":["why"]}]}
            """,
            Encoding.UTF8.GetString(RoomJson.ToUtf8(new DateOnly(2026, 6, 8), [(known, answers)])));
        var silent = new DescribedRoom { Zone = CourseOf.Zone, WhyNot = "There is no sensor in the hall." };
        var root = JsonSerializer.Deserialize<JsonElement>(RoomJson.ToUtf8(new DateOnly(2026, 6, 8), [(silent, RoomAnswers.Of(silent, [], null))])).GetProperty("zones")[0];
        Assert.Equal(JsonValueKind.Null, root.GetProperty("freeRun").ValueKind);
        Assert.Equal("There is no sensor in the hall.", root.GetProperty("notTold")[0].GetString());
    }
}
