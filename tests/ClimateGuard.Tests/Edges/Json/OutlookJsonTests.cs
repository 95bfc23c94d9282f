using System.Text;
using ClimateGuard.Edges.Json;
using ClimateGuard.Thermal;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Edges.Json;

public sealed class OutlookJsonTests
{
    private static readonly DateTimeOffset Noon = new(2026, 1, 10, 13, 0, 0, 250, TimeSpan.FromHours(1));

    [Fact]
    public void An_outlook_has_these_fields_rounded_to_what_they_mean()
    {
        var outlook = new Outlook
        {
            Machine = "M1", Serial = "S1", Part = "CP-100", Operation = "40", Level = Level.MeasureFirst,
            Worst = new FeatureOutlook
            {
                Feature = "bore", EffectMicrometres = 12.34567, DriftMicrometres = -0.00001, MismatchMicrometres = 12.3457,
                UMicrometres = 2.5, BudgetMicrometres = 18, ToleranceMicrometres = 60, Probability = 0.123456,
                WorstMicrometres = 14.0004, WorstAfter = TimeSpan.Zero, Level = Level.MeasureFirst,
            },
            PartCelsius = 18.12345, ScaleCelsius = 20, Start = new SafeNow(), Reason = "the part is 1.9 K cold: 12 µm",
            Action = "probe bores 1 and 4", Actions = ["probe bores 1 and 4", "soak"], Seq = 7, IssuedAt = Noon, ValidUntil = Noon.AddMinutes(5),
        };
        Assert.Equal(
            """{"machine":"M1","serial":"S1","part":"CP-100","operation":"40","level":"measure first","feature":"bore","effectUm":12.346,"driftUm":0,"mismatchUm":12.346,"uUm":2.5,"budgetUm":18,"worstUm":14,"probability":0.1235,"partC":18.123,"scaleC":20,"earliestSafe":"2026-01-10T12:00:00.250Z","earliestSafeLow":null,"earliestSafeHigh":null,"notWithinForecast":false,"reason":"the part is 1.9 K cold: 12 µm","action":"probe bores 1 and 4","actions":["probe bores 1 and 4","soak"],"seq":7,"issuedAt":"2026-01-10T12:00:00.250Z","validUntil":"2026-01-10T12:05:00.250Z"}""",
            Encoding.UTF8.GetString(OutlookJson.ToUtf8(outlook)));
    }

    [Fact]
    public void What_is_not_known_is_null_and_never_a_number()
    {
        var outlook = new Outlook
        {
            Machine = "M1", Level = Level.NotKnown, PartCelsius = double.NaN, Reason = "r", Action = "a", Seq = 1, IssuedAt = Noon, ValidUntil = Noon,
        };
        Assert.Contains(
            """
            "level":"not known","feature":null,"effectUm":null,"driftUm":null,"mismatchUm":null,"uUm":null,"budgetUm":null,"worstUm":null,"probability":null,"partC":null,"scaleC":null,"earliestSafe":null,
            """,
            Encoding.UTF8.GetString(OutlookJson.ToUtf8(outlook)),
            StringComparison.Ordinal);
    }

    [Fact]
    public void An_alert_has_these_fields() => Assert.Equal(
        """{"time":"2026-01-10T12:00:00.250Z","id":"a1","machine":null,"cause":"hold","text":"t","action":"x","cleared":false}""",
        Encoding.UTF8.GetString(AlertJson.ToUtf8(new AlertRaised(Noon, new Alert("a1", null, "hold", "t", "x", false)))));

    [Fact]
    public void A_status_has_these_fields() => Assert.Equal(
        """{"state":"offline","version":"0.1.0","configVersion":"c","since":null}""",
        Encoding.UTF8.GetString(WorkerStatusJson.ToUtf8(false, "0.1.0", "c", null)));
}
