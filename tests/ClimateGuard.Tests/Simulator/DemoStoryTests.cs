using ClimateGuard.Plant;
using ClimateGuard.Simulator;

namespace ClimateGuard.Tests.Simulator;

public class DemoStoryTests
{
    private static readonly Cell Description = DemoCell.Make();

    [Fact]
    public void It_begins_on_a_thursday_at_nine_local_time() =>
        Assert.Equal(new DateTimeOffset(2026, 7, 9, 7, 0, 0, TimeSpan.Zero), DemoScripts.ThursdayMorning(Description));

    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(2026)]
    public void The_hole_pattern_leaves_its_budget_about_half_an_hour_after_the_trip_and_comes_back(int seed)
    {
        var effect = Effects(seed, "M3", 200);
        var crossing = effect.FindIndex(e => e > 18);
        Assert.InRange(crossing, 6 + 27, 6 + 38);
        Assert.InRange(effect.FindIndex(crossing + 15, e => e < 10), 60, 105);
        Assert.True(effect.Take(6).Max() < 6);
        Assert.True(effect.Skip(105).Max() < 8);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(2026)]
    public void The_cold_blank_is_far_out_when_it_comes_and_in_when_it_is_rinsed(int seed)
    {
        var effect = Effects(seed, "M2", 200);
        Assert.True(effect.Skip(1).Take(120).Max() < 4);
        Assert.InRange(effect[131], 20, 45);
        Assert.True(effect.Skip(155).Max() < 4);
    }

    [Fact]
    public void The_air_stays_calm_while_the_coolant_warms_and_the_open_door_brings_no_hold()
    {
        var cell = New(7);
        var (largest, atDoor) = (0.0, 0.0);
        for (var minute = 0; minute < 200; minute++)
        {
            Minute(cell);
            var south = Math.Abs(cell.Room.FindZone("south")!.LowCelsius - 20);
            if (minute < 109) largest = Math.Max(largest, south);
            else atDoor = Math.Max(atDoor, south);
        }

        Assert.InRange(largest, 0, 0.5);
        Assert.InRange(atDoor, 0.4, 2.0);
    }

    [Fact]
    public void Each_telling_has_new_serials()
    {
        var cell = New(7);
        var serials = new List<string>();
        cell.Advance(cell.Now + TimeSpan.FromMinutes(610), _ => { }, e =>
        {
            if (e is JobLoaded { IsUnload: false } job) serials.Add(job.Serial);
        });
        Assert.Equal((3 * 4) + 3, serials.Count);
        Assert.Equal(serials.Count, serials.Distinct().Count());
    }

    [Fact]
    public void Each_cut_leaves_its_answer_key()
    {
        var cell = New(7);
        cell.Advance(cell.Now + TimeSpan.FromMinutes(199), _ => { }, _ => { });
        Assert.Contains(cell.Cuts, c => c.Machine == "M3" && c.Features[0].Feature == "holes" && c.Features[0].EffectMicrometres < 18);
        Assert.Equal(3, cell.Cuts.Count);
    }

    private static List<double> Effects(int seed, string machine, int minutes)
    {
        var cell = New(seed);
        var effects = new List<double>();
        for (var minute = 0; minute < minutes; minute++)
        {
            Minute(cell);
            effects.Add(cell.FindMachine(machine)!.Truth() is [var first, ..] ? first.EffectMicrometres : 0);
        }

        return effects;
    }

    private static void Minute(VirtualCell cell) => cell.Advance(cell.Now + TimeSpan.FromMinutes(1), _ => { }, _ => { });

    private static VirtualCell New(int seed) =>
        new(Description, new VirtualCellOptions(seed, DemoScripts.ThursdayMorning(Description), DemoScripts.CoolantTrip(Description)));
}
