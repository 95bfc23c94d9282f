using ClimateGuard.Watch;
using ClimateGuard.Worker.Pages.Machinist;
using ClimateGuard.Worker.Pages.Words;

namespace ClimateGuard.Tests.Worker.Pages;

public sealed class FloorTests
{
    private static readonly DateTimeOffset Now = InventedCell.TenPastTen;
    private static readonly CellTime Time = CellTime.Of("Europe/Vienna");

    private static Standing Stand(MachineSnapshot machine) => Standing.Of(machine, Now, false, Time);

    private static MachineSnapshot Machine(string id) => InventedCell.At(Now).Machines.Single(m => m.Machine.Id == id);

    [Fact]
    public void Who_needs_a_person_first_stands_first()
    {
        var order = FloorOrder.ByNeed(InventedCell.At(Now).Machines, Stand);
        Assert.Equal(["M3", "M4", "M5", "M2", "M6", "M1", "M7"], order.Select(m => m.Machine.Id));
        Assert.Equal(
            [Level.Hold, Level.MeasureFirst, Level.NotKnown, Level.Watch, Level.Bypassed, Level.Ready, Level.NoJob],
            order.Select(m => Stand(m).Level));
    }

    [Fact]
    public void Machines_of_one_level_keep_the_order_of_the_plant_file()
    {
        var machines = InventedCell.At(Now).Machines;
        Assert.Equal(machines, FloorOrder.ByNeed(machines, machine => Standing.Of(machine, Now, true, Time)));
    }

    [Fact]
    public void A_silent_worker_makes_every_machine_not_known()
    {
        var standing = Standing.Of(Machine("M1"), Now, true, Time);
        Assert.Equal(Level.NotKnown, standing.Level);
        Assert.Null(standing.Worst);
        Assert.Empty(standing.Features);
        Assert.Contains("silent since 10:05", standing.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void An_outlook_past_its_time_is_not_known()
    {
        var machine = Machine("M1");
        Assert.Equal(Level.Ready, Standing.Of(machine, machine.Outlook.ValidUntil, false, Time).Level);
        var late = Standing.Of(machine, machine.Outlook.ValidUntil.AddSeconds(1), false, Time);
        Assert.Equal(Level.NotKnown, late.Level);
        Assert.Contains("good until 10:15", late.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_level_this_page_does_not_know_needs_a_person() =>
        Assert.True(LevelLook.NeedsAPerson((Level)99));

    [Fact]
    public void The_earliest_safe_start_is_said_with_the_wait()
    {
        Assert.Equal(("11:00", "earliest safe start, in 55 min"), EarliestWords.Of(Stand(Machine("M3")), Now, Time));
        Assert.Equal(("after measuring", "earliest safe start"), EarliestWords.Of(Stand(Machine("M4")), Now, Time));
        Assert.Equal(
            ("none yet", "no safe start within the forecast"),
            EarliestWords.Of(Stand(Machine("M3")) with { EarliestSafe = null, NotWithinForecast = true }, Now, Time));
        Assert.Null(EarliestWords.Of(Stand(Machine("M3")) with { EarliestSafe = null }, Now, Time));
        Assert.Null(EarliestWords.Of(Stand(Machine("M1")), Now, Time));
    }

    [Fact]
    public void A_gap_in_the_trace_stays_a_gap_in_the_chart()
    {
        var machine = Machine("M3");
        var points = ChartPoints.Of(machine, Stand(machine), Now, Time);
        Assert.Equal(machine.Trace.Count, points.Times.Count);
        Assert.Null(points.Coolant[75]);
        Assert.NotNull(points.Air[75]);
        Assert.Equal("2026-11-26T10:05:00", points.Now);
        Assert.Equal("2026-11-26T10:30:00", points.CutEnd);
        Assert.Equal("2026-11-26T10:30:00", points.AheadTimes[^1]);
        Assert.Equal(36.4, points.Ahead[^1]);
        Assert.Equal(18, points.Budget);
    }

    [Fact]
    public void Minutes_that_are_absent_are_a_gap_too()
    {
        var machine = Machine("M3");
        var holed = machine with { Trace = [.. machine.Trace.Take(50), .. machine.Trace.Skip(90)] };
        var points = ChartPoints.Of(holed, Stand(holed), Now, Time);
        Assert.Equal(holed.Trace.Count + 1, points.Times.Count);
        Assert.Null(points.Air[50]);
    }

    [Fact]
    public void The_effect_is_drawn_only_while_that_feature_decided()
    {
        var machine = Machine("M3");
        var other = machine with { Trace = [.. machine.Trace.Select((p, i) => i < 100 ? p with { Feature = "pilot" } : p)] };
        var points = ChartPoints.Of(other, Stand(other), Now, Time);
        Assert.Null(points.Effect[60]);
        Assert.NotNull(points.Effect[120]);
    }
}
