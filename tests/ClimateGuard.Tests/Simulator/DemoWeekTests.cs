using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Plant;
using ClimateGuard.Simulator;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Simulator;

/// <summary>The scripted week on the finer room. Its numbers are its own: only the kind and order of what happens is the scenario's.</summary>
public class DemoWeekTests
{
    private static readonly Cell Sample = PlantFileReader.Read(Repository.PathOf("config", "plant.yaml")).Cell!;
    private static readonly (VirtualCell Cell, List<double> South, List<double> North, List<CellEvent> Events) Week = Play();

    [Fact]
    public void It_tells_all_thirteen_incidents_in_order() =>
        Assert.Equal(Enumerable.Range(1, 13).Select(n => $"I{n}"), Week.Cell.Told.Select(t => t.Code));

    [Fact]
    public void The_room_recovers_from_the_week_end_while_the_ring_is_still_warm()
    {
        Assert.InRange(Week.South[8 * 60], 19.7, 20.4);
        var ring = Week.Cell.Truth!.At("M4", "VR-780-2201", Local(0, 8, 0))!.Value;
        Assert.InRange(ring.PartCelsius, 20.5, 21.9);
    }

    [Fact]
    public void The_cold_blank_is_truly_out_when_it_is_asked_for_and_in_after_the_rinse()
    {
        var asks = Week.Cell.Asks.Where(a => a.Serial == "PC-620-117").Select(a => Week.Cell.Truth!.Of(a)!).ToArray();
        Assert.True(asks[0].WorstMicrometres > 20);
        Assert.False(asks[^1].Exceeds);
    }

    [Fact]
    public void The_south_hunts_on_tuesday_and_the_disc_does_not_mind()
    {
        var hunting = Week.South.Skip((24 + 15) * 60).Take(180).ToArray();
        Assert.True(hunting.Max() - hunting.Min() > 0.8);
        Assert.All(Week.Cell.Asks.Where(a => a.Serial == "FD-1100-0441"), a => Assert.False(Week.Cell.Truth!.Of(a)!.Exceeds));
    }

    [Fact]
    public void The_loaded_filter_lifts_the_north_and_the_plate_goes_out_hours_later()
    {
        Assert.InRange(Week.North.Skip((48 + 12) * 60).Take(7 * 60).Max(), 20.5, 22.0);
        var plate = Week.Cell.Asks.Where(a => a.Serial == "OB-900-0077").Select(a => (a.Time, Truth: Week.Cell.Truth!.Of(a)!)).ToArray();
        Assert.True(plate.Single(p => p.Time == Local(2, 16, 0)).Truth.Exceeds);
    }

    [Fact]
    public void The_tripped_chiller_takes_the_disc_out_and_the_override_is_told()
    {
        var asked = Week.Cell.Asks.Where(a => a.Serial == "FD-1100-0442").Select(a => Week.Cell.Truth!.Of(a)!).ToArray();
        Assert.True(asked[^1].WorstMicrometres > 30);
        Assert.Single(Week.Events.OfType<Overridden>());
    }

    [Fact]
    public void The_standing_fan_lets_the_south_run_away() => Assert.True(Week.South.Skip(((5 * 24) + 10) * 60).Take(40).Max() > 23);

    // 25 % of two components of 4 um each cannot hide 50 um over 900 mm.
    [Fact]
    public void The_inspection_finds_the_scale_that_the_warm_disc_left()
    {
        var cut = Week.Cell.Asks.Last(a => a.Serial == "FD-1100-0442");
        var rows = new InspectionDevice(Week.Cell, 5).Inspect(cut, cut.Time.AddDays(1));
        Assert.Equal(24, rows.Count);
        var scale = rows.Average(r => ((r.DxMicrometres!.Value * Hole(r).X) + (r.DyMicrometres!.Value * Hole(r).Y)) / (450.0 * 450.0)) * 1000;
        Assert.InRange(scale, -70, -25);
        var text = string.Join('\n', [InspectionRow.Header, .. rows.Select(r => r.Line("40", "cmm1"))]);
        var (values, problems) = ResultsFileReader.Parse(text, Sample);
        Assert.Empty(problems);
        Assert.Equal(24, values.Count);
    }

    // AW-5083 over 1 m at +1.5 K, device only: 23.8 * 1.5 = 35.7 um/m. Steel 11.6 * 1.5 = 17.4 um/m.
    [Theory]
    [InlineData(DeviceMode.None, 11.4)]
    [InlineData(DeviceMode.DeviceOnly, 17.4)]
    [InlineData(DeviceMode.DeviceAndPartSame, 8.7)]
    [InlineData(DeviceMode.DeviceAndPartSeparate, 0.0)]
    public void A_mode_leaves_in_what_it_does_not_know(DeviceMode mode, double micrometresPerMetre)
    {
        var cut = Week.Cell.Asks.First(a => a.Serial == "FD-1100-0441");
        double Scale(DeviceMode m, (double, double) celsius) => new InspectionDevice(Week.Cell, 5) { Mode = m, Celsius = celsius }.Inspect(cut, cut.Time)
            .Average(r => ((r.DxMicrometres!.Value * Hole(r).X) + (r.DyMicrometres!.Value * Hole(r).Y)) / (450.0 * 450.0)) * 1000;
        Assert.Equal(micrometresPerMetre, Scale(mode, (21.5, 20.75)) - Scale(mode, (20.0, 20.0)), 0.05);
    }

    [Fact]
    public void A_random_week_is_the_same_for_the_same_seed_and_another_for_another()
    {
        Assert.Equal(RandomWeek.Of(Sample, 4).Faults, RandomWeek.Of(Sample, 4).Faults);
        Assert.NotEqual(RandomWeek.Of(Sample, 4).Faults, RandomWeek.Of(Sample, 5).Faults);
        Assert.NotEmpty(RandomWeek.Of(Sample, 4).Faults);
    }

    private static PatternPoint Hole(InspectionRow row) =>
        ((PositionFeature)Sample.FindPart("FD-1100")!.Features[0]).Points[row.Hole!.Value - 1];

    private static DateTimeOffset Local(int day, int hour, int minute) =>
        DemoScripts.MondayMidnight(Sample) + new TimeSpan(day, hour, minute, 0);

    private static (VirtualCell, List<double>, List<double>, List<CellEvent>) Play()
    {
        var cell = new VirtualCell(Sample, DemoScripts.Week(Sample, 7));
        var (south, north, events) = (new List<double>(), new List<double>(), new List<CellEvent>());
        for (var minute = 0; minute < 7 * 24 * 60; minute++)
        {
            south.Add(cell.Room.FindZone("S")!.LowCelsius);
            north.Add(cell.Room.FindZone("N")!.LowCelsius);
            cell.Advance(cell.Now + TimeSpan.FromMinutes(1), _ => { }, events.Add);
        }

        return (cell, south, north, events);
    }
}
