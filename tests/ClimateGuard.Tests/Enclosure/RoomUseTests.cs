using ClimateGuard.Enclosure;
using ClimateGuard.Simulator;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Enclosure;

/// <summary>What a known room answers: recovery, design day, one more machine, set-back; and how its loop is read.</summary>
public sealed class RoomUseTests
{
    // A whole cell of 24 × 14 × 6 m: 8.4 and 125 MJ/K, 4.5 kW/K, 0.6 kW/K, 11 kW/K (common practice, no source)
    private static readonly RoomModel Cell = new([8.4e6, 125e6, 4500, 600, 11_000, 0, 0, 1, 0]);
    private static readonly SupplyLoop Loop = new(2, 25, 0.6, 13, 26);

    [Fact]
    public void Time_constants_of_a_usual_cell()
    {
        // Fast 5 to 10 min with fans on, slow 6 to 12 h; without fans about (Ca + Cm)/UA = 62 h and a little more
        var (fast, slow) = Cell.TimeConstants(1);
        Assert.InRange(fast.TotalMinutes, 5, 10);
        Assert.InRange(slow.TotalHours, 6, 12);
        Assert.InRange(Cell.TimeConstants(0).Slow.TotalHours, 61.8, 75);
    }

    [Fact]
    public void Recovery_at_the_limit_is_the_exponential_of_a_still_mass()
    {
        // K = 11 + 4.5 + 0.6 = 16.1 kW/K, τ = 8.4 MJ/K over it = 521.7 s; 0.5 K with 16.1 kW: −τ·ln(1 − 0.5) = 361.6 s
        var recovery = Recovery.Of(Cell, 0.5, 16.1);
        Assert.Equal(361.6, recovery.Air!.Value.TotalSeconds, 0.1);
        Assert.Equal(3 * Cell.TimeConstants(1).Slow, recovery.Mass);
        Assert.Null(Recovery.Of(Cell, 1.0, 16.0).Air);
        Assert.Equal(TimeSpan.Zero, Recovery.Of(Cell, 0, 0).Air);
    }

    [Fact]
    public void One_more_machine_warms_by_a_tenth_of_a_kelvin_for_each_kilowatt_and_ten_kilowatts_per_kelvin()
    {
        var room = new RoomModel([8.4e6, 125e6, 4500, 500, 9500, 0, 0, 1, 0]);
        var within = CapacityMargin.With(room, 14, marginKilowatts: 20);
        Assert.Equal((14.0, 6.0, 0.0), (within.HeatKilowatts, within.MarginLeftKilowatts, within.WarmerKelvins));
        Assert.Equal(1.4, within.WarmerAtCapacityKelvins, 1e-9);
        Assert.Equal(0.4, CapacityMargin.With(room, 14, marginKilowatts: 10).WarmerKelvins, 1e-9);
        Assert.Equal(9.5 * 3, CapacityMargin.Kilowatts(room, 16, 13), 1e-9);
    }

    [Fact]
    public void A_day_by_which_one_designs_takes_the_margin_and_then_the_band()
    {
        double[] hall = [.. Enumerable.Range(0, 1440).Select(m => 23 + (4 * Math.Cos(2 * Math.PI * (m - 960) / 1440.0)))];
        var day = new DayProfile(hall, [.. Enumerable.Repeat(15.0, 1440)], [.. Enumerable.Repeat(20.0, 1440)]);
        var usual = DesignDay.Of(ReferenceDays.North, Loop, day);
        var summer = DesignDay.Of(ReferenceDays.North, Loop, day.Warmer());

        Assert.Equal(TimeSpan.Zero, usual.AtCapacity);
        Assert.InRange(usual.MostKelvins, 0, 0.3);

        // 10 K more of hall are 280 W/K · 10 K = 2.8 kW
        Assert.Equal(2.8, usual.LeastMarginKilowatts - summer.LeastMarginKilowatts, 0.1);
        var full = DesignDay.Of(ReferenceDays.North, Loop, day.Warmer() with { LoadKilowatts = [.. Enumerable.Repeat(45.0, 1440)] });
        Assert.Equal(TimeSpan.FromDays(1), full.AtCapacity);
        Assert.Equal(0, full.LeastMarginKilowatts, 1e-6);

        // (45 + 0.28·17 − 6.05·7) kW / 8.33 kW/K = 0.89 K if the warmest hour lasted; the masses take some of it
        Assert.InRange(full.MostKelvins, 0.6, 0.89);
    }

    [Fact]
    public void A_set_back_costs_what_the_reference_room_shows()
    {
        // Reference week: 22.6 °C over the weekend until Monday 05:00. The machines of the north zone idle from 05:00 and run from 06:00.
        double[] hall = [.. Enumerable.Range(0, 1440).Select(m => 23 + (4 * Math.Cos(2 * Math.PI * (m - 960) / 1440.0)))];
        double[] load = [.. Enumerable.Range(0, 1440).Select(m => m is < 300 or >= 1320 ? 0.75 : m < 360 ? 8.0 : 21.0)];
        var day = new DayProfile(hall, load, [.. Enumerable.Repeat(20.0, 1440)]);
        var cost = SetBackCost.Of(ReferenceDays.North, Loop, day, 22.6, TimeSpan.FromHours(5), TimeSpan.FromHours(6), bandKelvins: 0.5, massKelvins: 1.5);

        var week = ReferenceWeek.Play();
        var last = Enumerable.Range(300, 1000).Last(minute => Math.Abs(week.North[minute] - 20) > 0.5);
        Assert.Equal(last + 1 - 300, cost.AirInBand!.Value.TotalMinutes, 15.0);

        // The masses follow the air with Cm/Gam = 70e6/2300 s = 8.45 h: from 2.6 K to 1.5 K in 8.45·ln(2.6/1.5) = 4.65 h, a little more while the air comes down.
        Assert.InRange(cost.MassSettled!.Value.TotalHours, 4.5, 5.5);
        Assert.Equal(cost.MassSettled!.Value.TotalHours - 1, cost.HoursLost, 1e-9);
    }

    [Fact]
    public void The_loop_of_the_reference_room_is_read_from_its_supply_air()
    {
        // v = 18 + 2.0·e + I, Ti 1 500 s = 25 min, limits 13 and 26 °C
        var course = new ZoneCourse();
        foreach (var minute in ReferenceDays.Play(7, eventful: true)) course.Add(minute);
        var loop = SupplyLoop.Of(course, int.MaxValue)!;

        Assert.InRange(loop.Gain, 1.4, 2.6);
        Assert.InRange(loop.IntegralMinutes, 17, 33);
        Assert.True(loop.LowCelsius < 17 && loop.HighCelsius > 20);
    }
}
