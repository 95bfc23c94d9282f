using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Evidence;

public sealed class GenealogyTests
{
    private static readonly PositionFeature Holes = Some.Holes();

    [Fact]
    public void A_step_has_its_machine_pallet_program_tools_and_the_times_of_its_cut()
    {
        var step = Assert.Single(GenealogyRecord.Of(
        [
            Job("S1", 0) with { Pallet = "P7", Program = "O7001 r3", Operator = "A. Berg" },
            Cut("S1", 20, started: true) with { Tool = "T12" },
            Cut("S1", 55, started: false),
            Job("", 60),
        ]).Steps);

        Assert.Equal(("S1", "40", "M1", "P7", "O7001 r3", "A. Berg"), (step.Serial, step.Operation, step.Machine, step.Pallet, step.Program, step.Operator));
        Assert.Equal(["T12"], step.Tools);
        Assert.Equal((At(20), At(55)), step.Window());
        Assert.Equal((At(60), CutBoundary.Cut), (step.End, step.Boundary));
    }

    [Fact]
    public void A_rework_is_a_step_of_its_own_and_a_result_belongs_to_the_last_step_before_it_was_measured()
    {
        var record = GenealogyRecord.Of([Job("S1", 0), Cut("S1", 10, true), Job("", 30), Job("S1", 600), Cut("S1", 610, true), Job("", 640)]);

        Assert.Equal(2, record.OfSerial("S1").Count);
        Assert.Equal(At(0), record.StepOf(Value("S1", 300)).Step!.Begin);
        Assert.Equal(At(600), record.StepOf(Value("S1", 900)).Step!.Begin);
        Assert.Equal(At(600), record.StepOf(Value("S1", null)).Step!.Begin);
    }

    [Fact]
    public void A_serial_given_while_the_cut_runs_is_the_same_part_and_both_names_find_it()
    {
        var record = GenealogyRecord.Of([Job("TEMP-1", 0), Cut("TEMP-1", 10, true), Job("S9", 15), Cut("S9", 40, false)]);

        var step = Assert.Single(record.Steps);
        Assert.Equal(("S9", "TEMP-1"), (step.Serial, step.FormerSerial));
        Assert.Same(step, record.StepOf(Value("TEMP-1", 100)).Step);
        Assert.Equal(At(40), step.Cuts[0].End);
    }

    [Fact]
    public void Parts_that_share_a_pallet_keep_their_nests_and_a_part_without_one_ends_the_step_before()
    {
        var record = GenealogyRecord.Of([Job("S1", 0) with { Pallet = "P1", Nest = "1" }, Job("S2", 0) with { Pallet = "P1", Nest = "2" }, Cut("S1", 10, true), Job("S3", 50)]);

        Assert.Equal([("S1", "1"), ("S2", "2"), ("S3", null)], record.Steps.Select(step => (step.Serial, step.Nest)));
        Assert.All(record.Steps.Take(2), step => Assert.Equal(At(50), step.End));
    }

    [Fact]
    public void What_is_not_known_is_said_and_never_guessed()
    {
        var record = GenealogyRecord.Of([Job("S1", 0), Cut("S1", 10, true), Job("S1", 60, "M2"), Cut("S1", 70, true, "M2")]);

        Assert.Contains("serial S7 is not known", record.StepOf(Value("S7", 100)).Why, StringComparison.Ordinal);
        Assert.Contains("was not cut as D-1 operation 50", record.StepOf(Value("S1", 100) with { Operation = "50" }).Why, StringComparison.Ordinal);
        Assert.Contains("cut in several operations", record.StepOf(Value("S1", 100) with { Machine = "", Operation = "" }).Why, StringComparison.Ordinal);
    }

    [Fact]
    public void The_order_of_the_events_does_not_matter()
    {
        CellEvent[] events = [Job("S1", 0), Cut("S1", 10, true), Cut("S1", 30, false), Job("S2", 40), Cut("S2", 50, true)];
        Assert.Equal(
            GenealogyRecord.Of(events).Steps.Select(step => (step.Serial, step.Begin, step.End, step.Cuts.Count)),
            GenealogyRecord.Of(events.Reverse()).Steps.Select(step => (step.Serial, step.Begin, step.End, step.Cuts.Count)));
    }

    private static DateTimeOffset At(int minutes) => Some.Morning.AddMinutes(minutes);

    private static JobLoaded Job(string serial, int minutes, string machine = "M1") => new(At(minutes), machine) { Serial = serial, Part = serial.Length > 0 ? "D-1" : "", Operation = "40" };

    private static CutMoved Cut(string serial, int minutes, bool started, string machine = "M1") => new(At(minutes), machine) { Started = started, Serial = serial, Operation = "40" };

    private static InspectionValue Value(string serial, int? minutes) =>
        new(serial, "40", "M1", Holes, 10) { Part = "D-1", MeasuredAt = minutes is { } at ? At(at) : null };
}
