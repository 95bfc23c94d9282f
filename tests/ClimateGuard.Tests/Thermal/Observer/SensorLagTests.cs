using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Thermal.Observer;

/// <summary>A first-order lag driven by a sinusoid has gain 1/√(1 + (ωτ)²) and lag atan(ωτ); values recomputed to 9 digits.</summary>
public sealed class SensorLagTests
{
    [Fact]
    public void A_sensor_of_one_hour_on_a_part_that_swings_in_an_hour_shows_sixteen_percent_of_it_a_quarter_turn_late()
    {
        var model = new ThermalModel(Some.Machine(), Some.Disc(), partSensorLag: TimeSpan.FromHours(1));
        var (part, sensor) = (new Swing(1), new Swing(1));
        Drive(model, 1, 60, (state, hours) =>
        {
            part.Take(hours, model.PartTemperature(state).Value);
            sensor.Take(hours, state[StateLayout.PartSensor]);
        });

        Assert.Equal(0.157176725, sensor.Amplitude / part.Amplitude, 2e-6);
        Assert.Equal(80.95693892, part.PhaseDegrees - sensor.PhaseDegrees, 1e-3);
    }

    [Fact]
    public void A_scale_of_two_hours_shows_eighty_nine_percent_of_a_day()
    {
        var machine = Some.Machine() with { Scale = new Scale { TimeConstant = TimeSpan.FromHours(2) } };
        var scale = new Swing(24);
        Drive(new ThermalModel(machine, null), 24, 72, (state, hours) => scale.Take(hours, state[StateLayout.Scale]));

        Assert.Equal(0.885908264, scale.Amplitude, 1e-4);
        Assert.Equal(27.63649933, -scale.PhaseDegrees, 0.05);
    }

    [Fact]
    public void Undoing_the_lag_of_an_input_gives_back_what_the_sensor_saw()
    {
        // A sensor of 60 s in air that steps from 20 to 21 °C reads 20.2212 after 15 s: 1 − exp(−0.25) = 0.221199217.
        var seen = InputLag.Undo(new Celsius(20), new Celsius(20.221199217), TimeSpan.FromSeconds(15), TimeSpan.FromSeconds(60));
        Assert.Equal(21.0, seen.Value, 1e-8);
        Assert.Equal(20.5, InputLag.Undo(new Celsius(20), new Celsius(20.5), TimeSpan.Zero, TimeSpan.FromSeconds(60)).Value);
    }

    [Fact]
    public void An_input_with_its_lag_undone_swings_as_wide_and_as_early_as_the_air()
    {
        var (air, read, undone) = (new Swing(1), new Swing(1), new Swing(1));
        var (before, sensor) = (20.0, 20.0);
        for (var second = 0; second < 6 * 3600; second += 10)
        {
            var hours = second / 3600.0;
            var truth = 20 + Math.Sin(2 * Math.PI * hours);
            sensor += (1 - Math.Exp(-10 / 300.0)) * (truth - sensor);
            if (second >= 4 * 3600)
            {
                air.Take(hours, truth);
                read.Take(hours, sensor);
                undone.Take(hours, InputLag.Undo(new(before), new(sensor), TimeSpan.FromSeconds(10), TimeSpan.FromSeconds(300)).Value);
            }

            before = sensor;
        }

        Assert.Equal(0.886, read.Amplitude, 0.002); // 300 s in one hour: 1/√(1 + 0.5236²)
        Assert.Equal(1.0, undone.Amplitude, 1e-9);
        Assert.Equal(0.0, undone.PhaseDegrees - air.PhaseDegrees, 1e-6);
    }

    [Fact]
    public void A_sensor_put_on_a_cold_part_does_not_warm_the_part_by_what_it_brought_along()
    {
        var model = new ThermalModel(Some.Machine(), Some.Disc(), partSensorLag: TimeSpan.FromMinutes(3));
        var state = model.Settled(new Surroundings(20));
        model.LoadPart(state, new Celsius(12), new Kelvins(0.5));
        var (truth, sensor) = (12.3, 20.0);
        for (var second = 0; second < 1800; second += 30)
        {
            model.Advance(state, new Surroundings(20), TimeSpan.FromSeconds(30));
            truth += 30 / model.Response!.TimeConstant(Medium.Air).TotalSeconds * (20 - truth);
            sensor += (1 - Math.Exp(-30 / 180.0)) * (truth - sensor);
            model.ObserveSensorOnPart(state, new Celsius(sensor), new Kelvins(0.05));
            Assert.Equal(truth, model.PartTemperature(state).Value, 1.5);
        }

        Assert.Equal(truth, model.PartTemperature(state).Value, 0.1);
    }

    private static void Drive(ThermalModel model, double periodHours, double hours, Action<ThermalState, double> look)
    {
        var state = model.Settled(new Surroundings(20));
        var steps = (int)(hours / periodHours * 720);
        for (var k = 0; k < steps; k++)
        {
            var middle = (k + 0.5) * periodHours / 720;
            model.Advance(state, new Surroundings(20 + Math.Sin(2 * Math.PI * middle / periodHours)), TimeSpan.FromHours(periodHours / 720));
            if (k >= steps - 720) look(state, (k + 1) * periodHours / 720);
        }
    }

    /// <summary>Amplitude and phase at one period, by projection.</summary>
    private sealed class Swing(double periodHours)
    {
        private double sine;
        private double cosine;
        private int count;

        public double Amplitude => 2 * Math.Sqrt((sine * sine) + (cosine * cosine)) / count;

        public double PhaseDegrees => Math.Atan2(cosine, sine) * 180 / Math.PI;

        public void Take(double hours, double value)
        {
            var (s, c) = Math.SinCos(2 * Math.PI * hours / periodHours);
            sine += s * (value - 20);
            cosine += c * (value - 20);
            count++;
        }
    }
}
