using ClimateGuard.Enclosure;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Enclosure;

/// <summary>How the air is kept, and when it left its band.</summary>
public sealed class RegimeAndExcursionTests
{
    private static readonly Cell Cell = CellWithUnit();
    private static readonly DateTimeOffset Start = new(2026, 3, 2, 0, 0, 0, TimeSpan.Zero);

    [Fact]
    public void Each_regime_is_told()
    {
        // 20 °C ± 1 K: in control; warm at full command; coming back; fan off
        var zone = ZoneOf(m => m < 60 ? 20.0 : m < 120 ? 21.6 : m < 180 ? 21.6 - (0.02 * (m - 120)) : 21.0, m => m is >= 60 and < 120 ? 1.0 : 0.5, m => m < 200 ? 1 : 0);
        var regimes = Regimes.Of(zone);

        Assert.Equal(Regime.InControl, regimes[30]);
        Assert.Equal(Regime.AtCapacity, regimes[100]);
        Assert.Equal(Regime.Recovering, regimes[160]);
        Assert.Equal(Regime.Off, regimes[220]);
    }

    [Fact]
    public void Warm_without_a_reason_is_outside_the_model() =>
        Assert.Equal(Regime.OutsideTheModel, Regimes.Of(ZoneOf(_ => 21.6, _ => 0.5, _ => 1))[100]);

    [Fact]
    public void An_excursion_has_begin_end_peak_degree_minutes_and_its_jobs()
    {
        // 30 min at 21.5 °C and 10 min at 22 °C: beyond the band of 1 K by 30·0.5 + 10·1.0 K·min
        var zone = ZoneOf(m => m is >= 60 and < 90 ? 21.5 : m is >= 90 and < 100 ? 22.0 : 20.0, _ => 0.5, _ => 1);
        CutAtMachine[] cuts =
        [
            new("S1", "M1", Start.AddMinutes(30), Start.AddMinutes(70)), new("S2", "M1", Start.AddMinutes(110), Start.AddMinutes(130)),
        ];
        var excursion = Assert.Single(Excursions.Of(Cell, zone, cuts));

        Assert.Equal(Start.AddMinutes(60), excursion.Begin);
        Assert.Equal(Start.AddMinutes(100), excursion.End);
        Assert.Equal(2.0, excursion.PeakKelvins, 1e-9);
        Assert.Equal(25.0, excursion.DegreeMinutes, 1e-9);
        Assert.Equal(["S1"], excursion.Serials);
    }

    private static ZoneSignals ZoneOf(Func<int, double> air, Func<int, double> command, Func<int, double> fan)
    {
        var builder = new FrameBuilder(Cell);
        for (var minute = 0; minute < 300; minute++)
        {
            var at = Start.AddMinutes(minute).ToUnixTimeMilliseconds();
            builder.Add(new Reading(Cell.IndexOfSensor("air/a1"), at, air(minute)));
            builder.Add(new Reading(Cell.IndexOfSensor("valve"), at, command(minute)));
            builder.Add(new Reading(Cell.IndexOfSensor("fan"), at, fan(minute)));
        }

        return new ZoneSignals(Cell, Cell.Zones[0], builder.Build());
    }

    private static Cell CellWithUnit()
    {
        var small = SmallCell.Of().Description;
        return new Cell(small with
        {
            Zones = [small.Zones[0] with { AirHandlers = ["ahu"] }],
            Sensors =
            [
                small.Sensors[0],
                new Sensor { Id = "valve", Quantity = SensorQuantity.Fraction, Place = SensorPlace.Command, PlausibleLow = 0, PlausibleHigh = 1 },
                new Sensor { Id = "fan", Quantity = SensorQuantity.Fraction, Place = SensorPlace.Command, PlausibleLow = 0, PlausibleHigh = 1 },
            ],
            AirHandlers = [new AirHandler { Id = "ahu", Points = new Dictionary<string, string> { ["coolingCommand"] = "valve", ["fanStatus"] = "fan" } }],
        });
    }
}
