using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Thermal.Risk;

public sealed class HeldMachine
{
    private static readonly Policies Rules = new();

    [Fact]
    public void A_held_wet_part_goes_towards_the_wet_bulb_and_comes_back_when_it_is_dry()
    {
        var model = new ThermalModel(Shop.Horizontal, Shop.Carrier, new ThermalNoise { WetShare = 1, WetShareUncertainty = 0, WetFor = TimeSpan.FromMinutes(30), DryingTime = TimeSpan.FromDays(1000) });
        var hold = Shop.Hold(Medium.Flood);

        var wet = After(model, hold, 30);
        var dry = After(model, hold, 230);
        var blown = After(model, hold with { WetFor = TimeSpan.Zero }, 30);

        // τ = 132/3 min: 7 K·(1 − exp(−30/44)) = 3.5 K below the air, and 80 % of it gone 200 min later.
        Assert.Equal(16.5, wet, 0.1);
        Assert.Equal(19.2, dry, 0.1);
        Assert.Equal(20.0, blown, 1e-9);
    }

    [Fact]
    public void A_part_at_the_temperature_of_the_scale_may_start_now()
    {
        var model = new ThermalModel(Shop.Horizontal, Shop.Carrier);

        Assert.True(EarliestSafeTime.TryFind(model, Shop.Loaded(model, 20), Shop.Hold(), Rules, out var start));
        Assert.IsType<SafeNow>(start);
    }

    [Fact]
    public void A_cold_part_is_not_safe_within_an_hour_and_the_answer_says_how_far_was_looked()
    {
        var model = new ThermalModel(Shop.Horizontal, Shop.Carrier);
        var hold = Shop.Hold() with { Horizon = TimeSpan.FromHours(1) };

        Assert.False(EarliestSafeTime.TryFind(model, Shop.Loaded(model, 12), hold, Rules, out var start));
        Assert.Equal(new NotWithinForecast(TimeSpan.FromHours(1), 0), start);
    }

    [Fact]
    public void The_times_at_which_truths_are_safe_are_in_order_and_the_release_comes_after_them()
    {
        var model = new ThermalModel(Shop.Horizontal, Shop.Carrier);

        Assert.True(EarliestSafeTime.TryFind(model, Shop.Loaded(model, 15), Shop.Hold() with { Horizon = TimeSpan.FromHours(6) }, Rules, out var start), start.ToString());
        var at = Assert.IsType<SafeAt>(start);

        Assert.True(at.Low <= at.Median && at.Median <= at.High && at.High <= at.Release, at.ToString());

        // 5 K to 7.5 µm at 4.37 µm/K: 132 min·ln(5/1.716) = 141 min for a truth that follows the expectation; later, because
        // each truth is judged by its worst moment of 35 min with its own departures of scale, air and axes.
        Assert.InRange(at.Median!.Value.TotalMinutes, 141, 180);
        Assert.True(at.Release > at.Median);
        Assert.True(at.Low < at.Median);
    }

    [Fact]
    public void The_earliest_time_is_the_first_minute_at_which_the_cut_would_be_released()
    {
        var model = new ThermalModel(Shop.Horizontal, Shop.Carrier);
        var state = Shop.Loaded(model, 17.5);
        var hold = Shop.Hold(paths: 4000);

        Assert.True(EarliestSafeTime.TryFind(model, state, hold, Rules, out var start));
        var release = Assert.IsType<SafeAt>(start).Release;

        Assert.Equal((true, false), (Released(model, state, hold, release.TotalMinutes), Released(model, state, hold, release.TotalMinutes - 6)));
    }

    [Fact]
    public void The_guard_band_alone_holds_back_a_release_that_the_probability_would_give()
    {
        var model = new ThermalModel(Shop.Horizontal, Shop.Carrier);
        var state = Shop.Loaded(model, 17.5);
        TimeSpan Release(double k)
        {
            var rules = new Policies { GuardFactor = k, Probability = new ProbabilityLimits { ReleaseHold = 0.99 } };
            EarliestSafeTime.TryFind(model, state, Shop.Hold(), rules, out var start);
            return Assert.IsType<SafeAt>(start).Release;
        }

        Assert.True(Release(1) < Release(2));
    }

    [Fact]
    public void Warmer_coolant_in_the_waiting_cut_than_in_the_air_of_the_hold_is_seen_in_the_cut()
    {
        var model = new ThermalModel(Shop.Horizontal, Shop.Carrier);
        var hold = Shop.Hold();
        var warm = hold with { Cut = hold.Cut with { Surroundings = hold.Cut.Surroundings with { CoolantCelsius = 23 } } };

        Assert.False(EarliestSafeTime.TryFind(model, Shop.Loaded(model, 20), warm, Rules, out _));
    }

    [Fact]
    public void Probing_again_at_the_start_takes_drift_off_that_no_waiting_takes_off()
    {
        var machine = Shop.Horizontal with { Drift = [new(Axis.Z, 20, TimeSpan.FromHours(1))] };
        var depth = new DepthFeature { Id = "depth", NominalMillimetres = 10, ToleranceMillimetres = 0.02, Budget = BudgetRule.Absolute(6) };
        var model = new ThermalModel(machine, Shop.Carrier with { Features = [depth] });
        var state = Shop.Loaded(model, 20);
        model.Advance(state, new Surroundings(21), TimeSpan.FromHours(3));
        var hold = Shop.Hold(air: 21);

        Assert.False(EarliestSafeTime.TryFind(model, state, hold, Rules, out _));
        Assert.True(EarliestSafeTime.TryFind(model, state, hold with { ReprobeAtStart = true }, Rules, out _));
    }

    [Fact]
    public void The_same_seed_gives_the_same_answer()
    {
        var model = new ThermalModel(Shop.Horizontal, Shop.Carrier);
        EarliestSafeTime.TryFind(model, Shop.Loaded(model, 15), Shop.Hold(Medium.Flood), Rules, out var first);
        EarliestSafeTime.TryFind(model, Shop.Loaded(model, 15), Shop.Hold(Medium.Flood), Rules, out var second);

        Assert.Equal(first, second);
    }

    [Fact]
    public void A_wet_part_without_a_wet_bulb_temperature_is_refused_with_a_clear_word()
    {
        var model = new ThermalModel(Shop.Horizontal, Shop.Carrier);

        var refused = Assert.Throws<ArgumentOutOfRangeException>(() =>
            EarliestSafeTime.TryFind(model, Shop.Loaded(model, 20), Shop.Hold(Medium.Flood, wetBulb: double.NaN), Rules, out _));
        Assert.Contains("what covers the part", refused.Message, StringComparison.Ordinal);
    }

    private static double After(ThermalModel model, HoldAhead hold, double minutes) => model.PartTemperature(Held(model, Shop.Loaded(model, 20), hold, minutes)).Value;

    private static ThermalState Held(ThermalModel model, ThermalState from, HoldAhead hold, double minutes)
    {
        var state = from.Copy();
        foreach (var course in hold.Courses(model.Noise, 0, minutes))
        {
            model.Advance(state, course.Surroundings, course.Step * course.Steps);
        }

        return state;
    }

    /// <summary>The condition of a release, told by the readable paths.</summary>
    private static bool Released(ThermalModel model, ThermalState state, HoldAhead hold, double minutes)
    {
        var there = Held(model, state, hold, minutes);
        var duration = model.Effects[0].Feature.FinishDuration + hold.Margin;
        var probability = CutPaths.Exceedance(model, there, hold.Cut with { Paths = 4000 }, [duration])[0];
        var risk = FinishCutRisk.Over(model, there, hold.Cut with { Planned = duration }, Rules)[0];
        return probability <= Rules.Probability.ReleaseHold + 0.01
            && risk.Trail.All(at => Math.Abs(at.EffectMicrometres) + (Rules.GuardFactor * at.UMicrometres) <= risk.BudgetMicrometres);
    }
}
