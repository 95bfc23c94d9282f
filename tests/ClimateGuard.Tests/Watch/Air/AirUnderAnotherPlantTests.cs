using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Air;

/// <summary>The plant file changes while a door stands open and the room is out of its band.</summary>
public sealed class AirUnderAnotherPlantTests
{
    private static readonly DateTimeOffset Begin = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);
    private static readonly Cell Before = WithDoor(SmallCell.Of().Description);
    private readonly AirWatch air = new(Before, AirPace.Usual);
    private readonly List<Decision> told = [];
    private DateTimeOffset now = Begin;

    public AirUnderAnotherPlantTests() => Live(air, 190);

    [Fact]
    public void What_stands_stays_and_is_not_told_again()
    {
        var finding = Assert.Single(air.Snapshot.Findings);
        var before = told.Count;
        var next = air.For(WithDoor(Before.Description with { Name = "Another name" }), now, told);

        Live(next, 200);

        Assert.Equal(before, told.Count);
        Assert.Equal(finding.Id, Assert.Single(next.Snapshot.Findings).Id);
        Assert.Equal(air.Snapshot.Zones[0].Excursion!.Begin, next.Snapshot.Zones[0].Excursion!.Begin);
        Assert.True(next.Snapshot.Zones[0].Excursion!.DegreeMinutes > air.Snapshot.Zones[0].Excursion!.DegreeMinutes);
    }

    [Fact]
    public void A_finding_of_a_sensor_that_was_taken_out_is_closed_and_says_so()
    {
        var without = new Cell(Before.Description with { Sensors = [.. Before.Sensors.Where(sensor => sensor.Id != "door")] });
        var decisions = new List<Decision>();

        var next = air.For(without, now, decisions);

        Assert.Equal("taken out of the plant file", Assert.IsType<FindingTold>(Assert.Single(decisions)).Finding.ClosedBecause);
        Assert.Empty(next.Snapshot.Findings);
        Assert.Single(air.Snapshot.Findings);
    }

    private void Live(AirWatch watch, int untilMinute)
    {
        for (; now < Begin.AddMinutes(untilMinute); now = now.AddMinutes(1))
        {
            var minute = (int)(now - Begin).TotalMinutes;
            Say(watch, "air/a1", minute >= 170 ? 21.5 : 20);
            Say(watch, "valve", 0.3 + (minute % 7 / 20.0));
            Say(watch, "door", minute >= 170 ? 1 : 0);
            watch.Pass(now.AddMinutes(1), [], told);
        }
    }

    private void Say(AirWatch watch, string sensor, double value)
    {
        var reading = new Reading(Before.IndexOfSensor(sensor), now.ToUnixTimeMilliseconds(), value);
        watch.Take(new TrustedReading(reading, value, Trust.Accepted, TrustReason.None));
    }

    private static Cell WithDoor(CellDescription small) => new(small with
    {
        Zones = [small.Zones[0] with { AirHandlers = ["ahu"] }],
        Sensors =
        [
            .. small.Sensors.Where(sensor => sensor.Id is not ("valve" or "door")),
            new Sensor { Id = "valve", Quantity = SensorQuantity.Fraction, Place = SensorPlace.Command, Unit = "fraction", PlausibleLow = 0, PlausibleHigh = 1, AirHandler = "ahu" },
            new Sensor { Id = "door", Quantity = SensorQuantity.Contact, Place = SensorPlace.Door, Zone = "main", Unit = "open", ReportsOnChange = true, PlausibleLow = 0, PlausibleHigh = 1 },
        ],
        AirHandlers = [new AirHandler { Id = "ahu", Points = new Dictionary<string, string> { ["coolingCommand"] = "valve" } }],
    });
}
