using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Thermal;
using CsCheck;

namespace ClimateGuard.Tests.Thermal.Observer;

public sealed class ExactStepTests
{
    // The part's own noise reaches a sensor on it one step later, so it is left out where a sensor's variance is compared.
    [Fact]
    public void One_long_step_equals_many_short_ones() => AnyMachine.Seed.Sample(
        seed =>
        {
            Compare(new Random(seed), new ThermalNoise { PartKelvins = 0 }, withSensor: true);
            Compare(new Random(seed), new ThermalNoise(), withSensor: false);
        },
        iter: 150);

    [Fact]
    public void The_steps_of_a_means_and_of_a_drawn_path_are_the_same() => AnyMachine.Seed.Sample(
        seed =>
        {
            var chance = new Random(seed);
            var model = AnyMachine.Model(chance);
            var state = AnyMachine.Start(model, chance);
            var around = AnyMachine.Around(chance);
            model.EnterMedium(state, around.Medium);
            double[] drawn = [.. state.Means];
            model.Steps.Follow(drawn, around, 77);
            model.Advance(state, around, TimeSpan.FromSeconds(77));
            for (var i = 0; i < drawn.Length; i++) Assert.Equal(state[i], drawn[i], 1e-12);
        },
        iter: 50);

    [Theory]
    [InlineData(1.0)] // pallet four times as slow as the part is by contact and air together
    [InlineData(0.25)] // as slow as the part: the confluent case
    [InlineData(0.2501)]
    [InlineData(0.01)]
    public void Part_pallet_and_sensor_follow_as_small_steps_of_the_differential_equation_do(double palletShare)
    {
        var part = Some.Disc() with { HeatTransfer = new HeatTransfer { Pallet = 30 } };
        var alone = new PartResponse(part);
        var rate = (1 / alone.TimeConstant(Medium.Air).TotalSeconds) + alone.PalletRate;
        var noise = new ThermalNoise { FixtureTimeConstant = TimeSpan.FromSeconds(4 * palletShare / rate) };
        var model = new ThermalModel(Some.Machine(), part, noise, partSensorLag: TimeSpan.FromMinutes(7));
        var state = model.Settled(new Surroundings(20));
        model.LoadPart(state, new Celsius(13), new Kelvins(0.5));
        ThermalModel.LoadPallet(state, new Celsius(9), new Kelvins(0.5));

        model.Advance(state, new Surroundings(22), TimeSpan.FromMinutes(45));

        var (part1, pallet, sensor) = (13.0, 9.0, 13.0);
        const double dt = 0.05;
        var air = 1 / alone.TimeConstant(Medium.Air).TotalSeconds;
        for (var t = 0.0; t < (45 * 60) - (dt / 2); t += dt)
        {
            // The trapezoid of a mid-point step, good to 1e-8 here.
            double Part(double p, double f) => (air * (22 - p)) + (alone.PalletRate * (f - p));
            double Pallet(double f) => (22 - f) / noise.FixtureTimeConstant.TotalSeconds;
            double Sensor(double s, double p) => (p - s) / 420;
            var (p2, f2, s2) = (part1 + (dt / 2 * Part(part1, pallet)), pallet + (dt / 2 * Pallet(pallet)), sensor + (dt / 2 * Sensor(sensor, part1)));
            (part1, pallet, sensor) = (part1 + (dt * Part(p2, f2)), pallet + (dt * Pallet(f2)), sensor + (dt * Sensor(s2, p2)));
        }

        Assert.Equal(part1, model.PartTemperature(state).Value, 1e-6);
        Assert.Equal(pallet, state[StateLayout.Fixture], 1e-6);
        Assert.Equal(sensor, state[StateLayout.PartSensor], 1e-6);
    }

    [Fact]
    public void The_covariance_follows_the_derivatives_of_the_step() => AnyMachine.Seed.Sample(
        seed =>
        {
            var chance = new Random(seed);
            var model = AnyMachine.Model(chance, new ThermalNoise { ScaleKelvins = 0, PartKelvins = 0, DriftKelvinsPerRootHour = 0, LeastDriftMicrometresPerRootHour = 0, SensitivitySharePerRootWeek = 0, WetShareUncertainty = 0 });
            var state = AnyMachine.Start(model, chance);
            var around = AnyMachine.Around(chance);
            model.EnterMedium(state, around.Medium);
            var number = chance.Next(state.Count);
            var (low, high) = (Moved(state, number, -1e-5), Moved(state, number, 1e-5));
            var only = new ThermalState(state.Means, UnitVariance(state.Count, number)) { PartMedium = state.PartMedium };
            foreach (var each in (ThermalState[])[low, high, only]) model.Advance(each, around, TimeSpan.FromMinutes(13));
            for (var i = 0; i < state.Count; i++)
            {
                var derivative = (high[i] - low[i]) / 2e-5;
                Assert.Equal(Math.Abs(derivative), only.StandardDeviation(i), 1e-5 * (1 + Math.Abs(derivative)));
            }
        },
        iter: 200);

    private static ThermalState Moved(ThermalState state, int number, double by)
    {
        var moved = state.Copy();
        moved.Mean[number] += by;
        return moved;
    }

    private static double[] UnitVariance(int count, int number)
    {
        var covariance = new double[count * count];
        covariance[(number * count) + number] = 1;
        return covariance;
    }

    private static void Compare(Random chance, ThermalNoise noise, bool withSensor)
    {
        var model = AnyMachine.Model(chance, noise, withSensor);
        var once = AnyMachine.Start(model, chance);
        var often = once.Copy();
        var around = AnyMachine.Around(chance);
        var whole = TimeSpan.FromMinutes(chance.Between(0.5, 900));
        model.Advance(once, around, whole);
        var left = whole;
        for (var i = 0; i < 6; i++)
        {
            var piece = left * chance.Between(0, 0.9);
            model.Advance(often, around, piece);
            left -= piece;
        }

        model.Advance(often, around, left);
        for (var i = 0; i < once.Count; i++)
        {
            Assert.Equal(once[i], often[i], 1e-9 * (1 + Math.Abs(once[i])));
            for (var k = 0; k < once.Count; k++)
            {
                var size = once.StandardDeviation(i) * once.StandardDeviation(k);
                Assert.Equal(once.Covariance[(i * once.Count) + k], often.Covariance[(i * once.Count) + k], 1e-12 + (1e-8 * size));
            }
        }
    }
}
