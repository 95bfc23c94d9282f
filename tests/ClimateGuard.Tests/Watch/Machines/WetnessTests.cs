using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Thermal;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Machines;

public sealed class WetnessTests
{
    private static readonly DateTimeOffset Off = Some.Morning;
    private static readonly MachineState Flooded = new()
    {
        Machine = "M1", At = Off, CoolantOn = true,
        Climate = new LocalClimate { AirCelsius = 20, CoolantCelsius = 20, RelativeHumidity = 45 },
    };

    [Fact]
    public void A_part_counts_as_wet_for_forty_minutes_after_the_coolant_stops_and_a_cut_knows_how_much_is_left()
    {
        var state = JobEvents.Take(Flooded, new CoolantSwitched(Off, "M1", On: false)) with { Job = new JobLoaded(Off, "M1") { Serial = "S1", Part = "P" } };
        Assert.Equal(Medium.Wet, Around.Of(Some.Machine(), state, Off.AddMinutes(39)).Medium);
        Assert.Equal(Medium.Air, Around.Of(Some.Machine(), state, Off.AddMinutes(40)).Medium);
        Assert.Equal(TimeSpan.FromMinutes(28), Evaluation.Cut(Some.Machine(), state with { At = Off.AddMinutes(12) }, TimeSpan.FromMinutes(40)).WetFor);
    }

    [Fact]
    public void A_part_that_is_blown_dry_is_in_air_at_once_with_the_coolant_or_later()
    {
        var wiped = JobEvents.Take(Flooded, new CoolantSwitched(Off, "M1", On: false, Dry: true));
        var wet = JobEvents.Take(Flooded, new CoolantSwitched(Off, "M1", On: false));
        var later = JobEvents.Take(wet, new CoolantSwitched(Off.AddMinutes(2), "M1", On: false, Dry: true));
        Assert.Equal((Medium.Air, Medium.Air), (Around.Of(Some.Machine(), wiped, Off).Medium, Around.Of(Some.Machine(), later, Off.AddMinutes(2)).Medium));
    }

    [Fact]
    public void Coolant_that_is_said_to_be_off_once_more_leaves_the_part_as_wet_as_it_was()
    {
        var wet = JobEvents.Take(Flooded, new CoolantSwitched(Off, "M1", On: false));
        var again = JobEvents.Take(wet, new CoolantSwitched(Off.AddMinutes(5), "M1", On: false));
        Assert.Equal(Off, again.WetSince);
    }
}
