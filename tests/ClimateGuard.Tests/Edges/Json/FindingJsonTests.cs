using System.Text;
using System.Text.Json;
using ClimateGuard.Edges.Json;
using ClimateGuard.Enclosure;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Edges.Json;

/// <summary>Findings and excursions in the form that others read.</summary>
public sealed class FindingJsonTests
{
    private static readonly DateTimeOffset Told = new(2026, 3, 4, 14, 0, 0, TimeSpan.Zero);

    private static readonly FindingCase Filter = new()
    {
        Id = "F07-ahu1-202603041400",
        Place = new FindingPlace("F07", "filter", "ahu1", null, null, null),
        Words = "filter loaded",
        State = FindingState.Open,
        OpenedAt = Told,
        Probability = 0.96123,
        Onset = Told.AddHours(-3),
        Evidence = [new("the filter pressure is 2.50 times the usual one", 9, "filter pressure"), new("the fan runs slower than usual", -4, "fan speed"), new("said nothing", 0, "nothing")],
        Missing = ["the air flow is not measured"],
        MovedFirst = [new SignalOnset("filter pressure", Told.AddHours(-3))],
        Answers = [new GivenAnswer(Told.AddMinutes(5), "F07", true, "T. Auer")],
        Impact = new FindingImpact(
            [new JobAtRisk("M2", "S1", "OB-900", "40", "dowels", Level.Hold, 0.4, 1.0, null)], 2, ["M5"], "1 of 2 jobs in zone N at risk, 1.0 finish hours."),
    };

    // Approved: a change here is a change of what scripts of others read.
    [Fact]
    public void A_finding_has_the_fields_of_the_contract() => Assert.Equal(
        """
        {"time":"2026-03-04T14:00:00.000Z","id":"F07-ahu1-202603041400","state":"open","finding":"F07","cause":"filter loaded","component":"filter","airHandler":"ahu1","zone":null,"machine":null,"sensor":null,"probability":0.9612,"openedAt":"2026-03-04T14:00:00.000Z","onset":"2026-03-04T11:00:00.000Z","evidence":[{"text":"the filter pressure is 2.50 times the usual one","logLikelihoodRatio":9,"symptom":"filter pressure"},{"text":"the fan runs slower than usual","logLikelihoodRatio":-4,"symptom":"fan speed"}],"missing":["the air flow is not measured"],"movedFirst":[{"signal":"filter pressure","at":"2026-03-04T11:00:00.000Z"}],"firstCheck":"Read the filter pressure gauge and look at the filter.","check":{"tool":"gauge, torch","place":"at the filter section","minutes":3,"expected":"the pressure is more than one and a half times that of a clean filter"},"answers":[{"time":"2026-03-04T14:05:00.000Z","finding":"F07","seen":true,"by":"T. Auer"}],"impact":{"text":"1 of 2 jobs in zone N at risk, 1.0 finish hours.","jobsLoaded":2,"finishHours":1,"jobs":[{"machine":"M2","serial":"S1","part":"OB-900","operation":"40","feature":"dowels","level":"hold","probability":0.4,"finishHours":1,"waitHours":null}],"notKnown":["M5"]}}
        """,
        Encoding.UTF8.GetString(FindingJson.ToUtf8(new FindingTold(Told, Filter))));

    [Fact]
    public void An_excursion_has_the_fields_of_the_contract() => Assert.Equal(
        """
        {"time":"2026-03-04T14:00:00.000Z","zone":"N","begin":"2026-03-04T13:00:00.000Z","end":null,"peakK":1.8,"degreeMinutes":36.4,"jobs":[{"machine":"M2","serial":"S1","part":"OB-900","operation":"40"}]}
        """,
        Encoding.UTF8.GetString(ExcursionJson.ToUtf8(new ExcursionTold(Told, Excursion))));

    [Fact]
    public void A_finding_is_read_back_from_its_line_but_for_what_is_of_its_moment()
    {
        var closed = Filter with { State = FindingState.Closed, ClosedAt = Told, ClosedBecause = "closed", Verified = "F07", FixedBy = "new filter", By = "T. Auer" };
        foreach (var finding in new[] { Filter, closed })
        {
            var line = LedgerLines.Of(new FindingTold(Told, finding))!;
            var read = FindingLines.Finding(line)!;

            Assert.Null(line.Problem());
            Assert.Null(read.Impact);
            Assert.Equal(
                Encoding.UTF8.GetString(FindingJson.ToUtf8(new FindingTold(Told, finding with { Impact = null }))),
                Encoding.UTF8.GetString(FindingJson.ToUtf8(new FindingTold(Told, read))));
        }
    }

    [Fact]
    public void An_excursion_is_read_back_from_its_line()
    {
        var read = FindingLines.Excursion(LedgerLines.Of(new ExcursionTold(Told, Excursion))!)!;

        Assert.Equal((Excursion.Zone, Excursion.Begin, Excursion.End, 36.4), (read.Zone, read.Begin, read.End, read.DegreeMinutes));
        Assert.Equal(Excursion.Jobs, read.Jobs);
    }

    [Theory]
    [InlineData("{}")]
    [InlineData("""{"id":"x","finding":7}""")]
    [InlineData("""{"id":"x","finding":"F07","openedAt":"noon","probability":1}""")]
    public void A_line_that_something_else_wrote_is_passed_over(string json)
    {
        Assert.Null(FindingLines.Finding(new LedgerLine(Told, LedgerKinds.Finding, null, json)));
        Assert.Null(FindingLines.Excursion(new LedgerLine(Told, LedgerKinds.Excursion, null, json)));
        Assert.Null(FindingLines.Finding(new LedgerLine(Told, LedgerKinds.Alert, null, json)));
    }

    [Fact]
    public void The_answer_of_GET_findings_has_ranking_limits_with_provenance_and_the_next_check()
    {
        var seen = new Finding
        {
            Assessment = new Assessment { Cause = F07FilterFouled.Cause, Component = "filter", Words = "filter loaded", AirHandler = "ahu1" }, Probability = 0.9, LogOdds = 2.2,
        };
        var air = new AirSnapshot
        {
            JudgedAt = Told, KnownFrom = Told.AddDays(-1), Findings = [Filter], Units = [new UnitSnapshot("ahu1", 3, [seen], 0.1, NextCheck.Of([seen])[0])], Notes = ["a note"],
        };
        var root = JsonSerializer.Deserialize<JsonElement>(AirJson.Findings(air, SmallCell.Of()));

        Assert.Equal(["judgedAt", "knownFrom", "findings", "closed", "airHandlers", "notes"], root.EnumerateObject().Select(field => field.Name));
        var limit = root.GetProperty("findings")[0].GetProperty("limits")[0];
        Assert.Equal(("pressureRatio", 1.5, "default: common practice, no source"), (limit.GetProperty("key").GetString(), limit.GetProperty("value").GetDouble(), limit.GetProperty("from").GetString()));
        var unit = root.GetProperty("airHandlers")[0];
        Assert.Equal(["airHandler", "daysKnown", "noneOfThese", "ranked", "nextCheck"], unit.EnumerateObject().Select(field => field.Name));
        Assert.Equal("F07", unit.GetProperty("nextCheck").GetProperty("finding").GetString());
    }

    private static ZoneExcursion Excursion => new("N", Told.AddHours(-1), null, 1.8, 36.4, [new TouchedJob("M2", "S1", "OB-900", "40")]);
}
