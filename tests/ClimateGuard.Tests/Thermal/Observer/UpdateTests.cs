using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Thermal;
using CsCheck;
using MathNet.Numerics.LinearAlgebra;

namespace ClimateGuard.Tests.Thermal.Observer;

public sealed class UpdateTests
{
    [Fact]
    public void The_update_is_the_one_of_joseph_with_a_contradicted_prior_widened_first() => AnyMachine.Seed.Sample(
        seed =>
        {
            var chance = new Random(seed);
            var model = AnyMachine.Model(chance);
            var state = AnyMachine.Start(model, chance);
            model.Advance(state, AnyMachine.Around(chance), TimeSpan.FromMinutes(chance.Between(1, 300)));
            var n = state.Count;
            var p = Of(state);
            var h = Vector<double>.Build.Dense(n);
            h[StateLayout.Scale] = 1;
            var innovation = chance.Between(-1, 1) * (chance.Next(3) == 0 ? 20 : 0.2);
            var r = Math.Pow(chance.Between(0.02, 0.4), 2);
            var means = Vector<double>.Build.DenseOfArray([.. state.Means]);

            var outcome = model.ObserveScale(state, new Celsius(means[StateLayout.Scale] + innovation), new Kelvins(Math.Sqrt(r)));

            var g = p * h;
            var s = h * g;
            if (Math.Abs(innovation) > 5 * Math.Sqrt(s + r))
            {
                // Widened until the measurement is three deviations away: w·s + R = (innovation/3)².
                Assert.True(outcome.Contradicts);
                var w = ((innovation * innovation / 9) - r) / s;
                p += (w - 1) / s * g.OuterProduct(g);
            }

            var k = p * h / ((h * p * h) + r);
            var keep = Matrix<double>.Build.DenseIdentity(n) - k.OuterProduct(h);
            var expected = (keep * p * keep.Transpose()) + (r * k.OuterProduct(k));
            var expectedMeans = means + (innovation * k);
            var size = p.Diagonal().Maximum();
            for (var i = 0; i < n; i++)
            {
                Assert.Equal(expectedMeans[i], state[i], 1e-9 * (1 + Math.Abs(expectedMeans[i])));
                for (var j = 0; j < n; j++) Assert.Equal(expected[i, j], state.Covariance[(i * n) + j], 1e-10 * (1 + size));
            }
        },
        iter: 200);

    [Fact]
    public void The_covariance_stays_symmetric_and_positive_over_thousands_of_steps_and_updates() => Gen.Int[0, 1_000_000].Sample(
        seed =>
        {
            var chance = new Random(seed);
            var model = AnyMachine.Model(chance);
            var state = AnyMachine.Start(model, chance);
            for (var i = 0; i < 4000; i++)
            {
                model.Advance(state, AnyMachine.Around(chance), TimeSpan.FromSeconds(Math.Exp(chance.Between(0, 9))));
                AnyUpdate(model, state, chance);
            }

            var n = state.Count;
            for (var i = 0; i < n; i++)
            {
                Assert.True(double.IsFinite(state[i]));
                for (var k = 0; k < n; k++) Assert.Equal(state.Covariance[(i * n) + k], state.Covariance[(k * n) + i]);
            }

            // Judged as correlations, so that micrometres do not hide kelvins.
            var p = Of(state);
            var deviations = p.Diagonal().Map(v => v > 0 ? 1 / Math.Sqrt(v) : 0);
            var correlation = Matrix<double>.Build.DiagonalOfDiagonalVector(deviations) * p * Matrix<double>.Build.DiagonalOfDiagonalVector(deviations);
            var least = ((correlation + correlation.Transpose()) / 2).Evd(Symmetricity.Symmetric).EigenValues.Select(v => v.Real).Min();
            Assert.True(least > -1e-7, $"least eigenvalue {least}");
        },
        iter: 12, threads: 2);

    [Fact]
    public void More_information_never_raises_the_uncertainty_of_an_effect() => AnyMachine.Seed.Sample(
        seed =>
        {
            var chance = new Random(seed);
            var model = AnyMachine.Model(chance);
            var state = AnyMachine.Start(model, chance);
            model.Advance(state, AnyMachine.Around(chance), TimeSpan.FromMinutes(chance.Between(1, 600)));
            var before = model.Effects[0].At(model, state);
            var kind = chance.Next(4);
            var u = chance.Between(0.01, 5);
            _ = kind switch
            {
                0 => model.ObserveContact(state, model.PartTemperature(state), new Kelvins(u)),
                1 => model.ObserveScale(state, new Celsius(state[StateLayout.Scale]), new Kelvins(u)),
                2 => model.ObserveReprobe(state, (Axis)chance.Next(3), 0, 1e6),
                _ => model.ObserveSensorOnPart(state, new Celsius(state[StateLayout.PartSensor]), new Kelvins(u)),
            };
            Assert.True(model.Effects[0].At(model, state).UMicrometres <= before.UMicrometres * (1 + 1e-9));
        },
        iter: 300);

    [Fact]
    public void A_second_measurement_says_half_again_as_much_as_the_first()
    {
        var model = new ThermalModel(Some.Machine(), Some.Disc());
        var state = model.Settled(new Surroundings(20));
        model.LoadPart(state, new Celsius(20), new Kelvins(1000));
        model.ObserveContact(state, new Celsius(21), new Kelvins(0.1));
        Assert.Equal(0.1, model.PartUncertainty(state).Value, 1e-6);
        model.ObserveContact(state, new Celsius(21), new Kelvins(0.1));
        Assert.Equal(0.1 / Math.Sqrt(2), model.PartUncertainty(state).Value, 1e-6);
        Assert.Equal(21, model.PartTemperature(state).Value, 1e-6);
    }

    [Fact]
    public void A_span_probe_is_a_thermometer_of_the_mismatch_and_leaves_the_common_temperature_open()
    {
        var model = new ThermalModel(Some.Machine(11.5), Some.Disc());
        var state = model.Settled(new Surroundings(20));
        model.LoadPart(state, new Celsius(20), new Kelvins(1));
        state.Reset(StateLayout.Scale, 20, 1);

        // 600 mm of steel, 13.8 µm long: 2 K between part and scale (11.5 µm/(m K)).
        model.ObserveSpan(state, 600, 13.8, 1.4);

        Assert.Equal(2.0, model.PartTemperature(state).Value - state[StateLayout.Scale], 0.05);
        Assert.True(model.PartUncertainty(state).Value > 0.7);
        Assert.Equal(-0.8 * 11.5 * 2, -model.Effects[0].At(model, state).EffectMicrometres, 0.5);
    }

    private static void AnyUpdate(ThermalModel model, ThermalState state, Random chance)
    {
        var off = chance.Next(20) == 0 ? 10 : 0.3;
        switch (chance.Next(6))
        {
            case 0:
                model.ObserveContact(state, new Celsius(model.PartTemperature(state).Value + chance.Between(-off, off)), new Kelvins(chance.Between(0, 0.5)));
                break;
            case 1:
                model.ObserveScale(state, new Celsius(state[StateLayout.Scale] + chance.Between(-off, off)), new Kelvins(chance.Between(0.001, 0.5)));
                break;
            case 2:
                var axis = (Axis)chance.Next(3);
                model.ObserveReprobe(state, axis, -model.DriftMicrometres(state, axis) + chance.Between(-off, off), chance.Between(0.5, 2));
                model.ProbeDatum(state, [axis]);
                break;
            case 3:
                model.ObserveSensorOnPart(state, new Celsius(state[StateLayout.PartSensor] + chance.Between(-off, off)), new Kelvins(0.05));
                break;
            case 4 when chance.Next(20) == 0:
                model.LoadPart(state, new Celsius(chance.Between(10, 40)), new Kelvins(chance.Between(0, 4)));
                break;
        }
    }

    private static Matrix<double> Of(ThermalState state) => Matrix<double>.Build.Dense(state.Count, state.Count, [.. state.Covariances]);
}
