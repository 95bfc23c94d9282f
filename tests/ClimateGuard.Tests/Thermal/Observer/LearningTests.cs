using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Thermal.Observer;

/// <summary>Re-probes of an unmoved datum teach the sensitivity of the machine: thirty checks in a week with 1 K of swing.</summary>
public sealed class LearningTests
{
    private const double TrueShare = 1.35; // the machine moves 35 % more than the plant file says

    [Fact]
    public void A_week_of_reprobes_learns_the_sensitivity_to_a_quarter_and_predicts_the_next_days_better()
    {
        var (found, taught, untaught) = Play(new Random(5));

        Assert.InRange(found.Error, TrueShare - 1 - 0.15, TrueShare - 1 + 0.15);
        Assert.InRange(found.Deviation, 0.02, 0.25);
        Assert.True(taught < 0.7 * untaught, $"{taught} µm rms against {untaught}");
    }

    [Fact]
    public void What_it_says_of_itself_holds_over_many_machines()
    {
        var squared = 0.0;
        const int Machines = 40;
        for (var seed = 0; seed < Machines; seed++)
        {
            var (found, _, _) = Play(new Random(100 + seed));
            squared += Math.Pow((found.Error - (TrueShare - 1)) / found.Deviation, 2) / Machines;
        }

        // Mean of the squared normalised error; 1 when the covariance is right.
        Assert.InRange(squared, 0.3, 2.0);
    }

    [Fact]
    public void Without_new_measurements_the_sensitivity_wanders_two_percent_in_a_week()
    {
        var model = Model();
        var state = model.Settled(new Surroundings(20));
        var index = StateLayout.SensitivityError(0);
        state.Reset(index, 0.1, 0);
        model.Advance(state, new Surroundings(20), TimeSpan.FromDays(7));
        Assert.Equal(0.02, state.StandardDeviation(index), 1e-12);
        Assert.Equal(0.1, state[index]);
    }

    private static ThermalModel Model() => new(
        Some.Machine() with { Drift = [new(Axis.Z, 8, TimeSpan.FromHours(6))] },
        Some.Disc(new DepthFeature { Id = "d", ToleranceMillimetres = 0.02, Budget = BudgetRule.Absolute(6), NominalMillimetres = 10 }));

    private static ((double Error, double Deviation) Found, double Taught, double Untaught) Play(Random chance)
    {
        var model = Model();
        var (taught, untaught) = (model.Settled(new Surroundings(20)), model.Settled(new Surroundings(20)));
        var (truth, atProbe) = (0.0, 0.0);
        var (learned, plain, checks) = (0.0, 0.0, 0);
        for (var minute = 0; minute < 9 * 1440; minute++)
        {
            var air = 20 + Math.Sin(2 * Math.PI * minute / 1440.0);
            truth += (1 - Math.Exp(-1 / 360.0)) * ((8 * TrueShare * (air - 20)) - truth);
            model.Advance(taught, new Surroundings(air), TimeSpan.FromMinutes(1));
            model.Advance(untaught, new Surroundings(air), TimeSpan.FromMinutes(1));
            if (minute % 300 != 299)
            {
                continue;
            }

            var drift = truth - atProbe + (0.3 * Gauss(chance));
            if (minute < 7 * 1440)
            {
                model.ObserveReprobe(taught, Axis.Z, -drift + Gauss(chance), 1);
            }
            else
            {
                learned += Math.Pow(model.DriftMicrometres(taught, Axis.Z) - drift, 2);
                plain += Math.Pow(model.DriftMicrometres(untaught, Axis.Z) - drift, 2);
                checks++;
            }

            model.ProbeDatum(taught, [Axis.Z]);
            model.ProbeDatum(untaught, [Axis.Z]);
            atProbe = truth;
        }

        var r = StateLayout.SensitivityError(0);
        return ((taught[r], taught.StandardDeviation(r)), Math.Sqrt(learned / checks), Math.Sqrt(plain / checks));
    }

    private static double Gauss(Random chance) =>
        Math.Sqrt(-2 * Math.Log(1 - chance.NextDouble())) * Math.Cos(2 * Math.PI * chance.NextDouble());
}
