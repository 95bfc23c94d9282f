using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Thermal;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Machines;

public sealed class StartAndSurroundingsTests
{
    private static readonly LocalClimate Climate = new(20, 23, double.NaN, 0, double.NaN, 0, 12, 24, 45);
    private static readonly JobLoaded Job = new(Some.Morning, "M1") { Serial = "S1", Part = "D-1" };

    [Theory]
    [InlineData(null, 12, 4)] // blanks of a machine with a store wait there, but nobody said so
    [InlineData("storage", 12, 2)]
    [InlineData("hall", 24, 4)]
    [InlineData("wash", 50, 5)]
    [InlineData("M3", 26, 1)] // its coolant
    public void A_part_starts_at_the_temperature_of_where_it_was(string? origin, double celsius, double kelvins)
    {
        var (part, u, _) = Load(Job with { Origin = origin }, Climate with { OriginCoolantCelsius = 26 });
        Assert.Equal(celsius, part, 1e-9);
        Assert.Equal(kelvins, u, 1e-9);
    }

    [Fact]
    public void A_machine_whose_coolant_nobody_knows_is_as_good_as_the_hall()
    {
        var (part, u, _) = Load(Job with { Origin = "M9" }, Climate);
        Assert.Equal((24.0, 4.0), (part, u));
    }

    [Fact]
    public void What_was_measured_wins_and_soaks_since_it_came_in()
    {
        var measured = Job with { Start = new Celsius(14), StartUncertainty = new Kelvins(0.3), Origin = "wash" };
        Assert.Equal((14.0, 0.3), (Load(measured, Climate).Part, Load(measured, Climate).U));
        var soaked = Load(measured with { EnteredCell = Some.Morning.AddHours(-10) }, Climate);
        Assert.InRange(soaked.Part, 19, 20);
    }

    /// <summary>A week-end set-back: the air is back at 20 °C since an hour, what lay in it is not.</summary>
    [Fact]
    public void A_part_that_lay_in_the_enclosure_is_as_warm_as_the_air_was()
    {
        var trace = Trace.Empty;
        for (var minute = -300; minute <= 0; minute++)
        {
            trace = trace.With(new TracePoint(Some.Morning.AddMinutes(minute), minute < -60 ? 22.6 : 20, double.NaN, double.NaN, double.NaN, null, double.NaN, double.NaN, Level.NoJob));
        }

        var model = new ThermalModel(Some.Machine(), Some.Disc());
        var left = Math.Exp(-60 / model.Response!.TimeConstant(Medium.Air).TotalMinutes);
        var job = Job with { Origin = "hall", EnteredCell = Some.Morning.AddDays(-5) };

        Assert.Equal(20 + (2.6 * left), Load(job, Climate, trace).Part, 0.02);

        // Without a memory the air of now is all there is, and the doubt about it stays.
        var forgotten = Load(job, Climate);
        Assert.Equal(20, forgotten.Part, 0.01);
        Assert.Equal(model.Noise.AirForecastKelvins, forgotten.U, 0.12);
    }

    [Fact]
    public void A_pallet_from_the_store_is_as_cold_as_the_store()
    {
        Assert.Equal(12, Load(Job with { Pallet = "P1" }, Climate).Pallet, 1e-9);
        Assert.Equal(20, Load(Job, Climate).Pallet, 1e-9);
    }

    // 20 °C: wet bulb 13.0 °C at 45 %, 15.1 °C at 60 % (ASHRAE Handbook Fundamentals, chapter 1, recomputed).
    [Theory]
    [InlineData(45, 13.0)]
    [InlineData(60, 15.1)]
    [InlineData(101, 20.0)]
    public void A_wet_part_cools_towards_the_wet_bulb(double humidity, double celsius)
    {
        var state = new MachineState
        {
            Machine = "M1", At = Some.Morning, Climate = Climate with { RelativeHumidity = humidity }, WetSince = Some.Morning.AddMinutes(-5),
        };
        var around = Around.Of(Some.Machine(), state, Some.Morning);
        Assert.Equal(Medium.Wet, around.Medium);
        Assert.Equal(celsius, around.SinkCelsius, 0.1);
    }

    private static (double Part, double U, double Pallet) Load(JobLoaded job, LocalClimate climate, Trace? trace = null)
    {
        var model = new ThermalModel(Some.Machine(), Some.Disc(), new ThermalNoise { PartKelvins = 0 });
        var thermal = model.Settled(new Surroundings(20));
        StartTemperature.Load(model, thermal, job, new MachineState { Machine = "M1", At = Some.Morning, Climate = climate, Trace = trace ?? Trace.Empty });
        return (model.PartTemperature(thermal).Value, model.PartUncertainty(thermal).Value, thermal[StateLayout.Fixture]);
    }
}
