using ClimateGuard.Edges.Json;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Watch.Machines;
using ClimateGuard.Thermal;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Permits;

/// <summary>A blank 1.8 K cold: its holes, cut on nominal, are later too far out by 11.6 µm/(m·K) · 1.8 K = 20.9 µm/m.</summary>
public sealed class OffsetTests
{
    private static readonly TimeSpan Minute = TimeSpan.FromMinutes(1);

    [Fact]
    public void Before_a_length_on_the_part_was_probed_no_offset_is_proposed_only_the_probe_is()
    {
        var machine = Cold();

        Assert.DoesNotContain(machine.Outlook.Actions, action => action.Contains("Setter only", StringComparison.Ordinal));
        Assert.Contains(machine.Outlook.Actions, action => action.Contains("Probe a known length", StringComparison.Ordinal));
    }

    [Fact]
    public void After_the_span_probe_the_offset_proposed_makes_the_pattern_smaller_by_what_it_will_grow()
    {
        var machine = Probed();

        Assert.Contains(machine.Outlook.Actions, action => action.Contains("Setter only", StringComparison.Ordinal));
        Assert.InRange(machine.State.Prospect!.Offset!.ScaleFactor, 1 - 21e-6, 1 - 15e-6);
    }

    [Fact]
    public void Once_a_setter_has_set_it_the_machine_is_ready_and_the_control_is_answered_go_with_offset()
    {
        var machine = Probed();
        Assert.NotEqual(Answer.Go, machine.Ask("r1").Answer);

        Set(machine);
        var answer = machine.Ask("r2");

        Assert.Equal((Answer.GoWithOffset, ReasonCodes.WithOffset), (answer.Answer, answer.ReasonCode));
        Assert.Equal("R. Lindt", answer.Permit!.Offset!.By);
        Assert.True(machine.Outlook.Level is Level.Ready or Level.Watch, machine.Outlook.Reason);
        Assert.InRange(Math.Abs(machine.Outlook.Worst!.WorstMicrometres), 0, 6);
    }

    [Fact]
    public void An_offset_with_its_sign_turned_gets_no_go()
    {
        var machine = Probed();
        Set(machine, scale: 2 - machine.State.Prospect!.Offset!.ScaleFactor);

        Assert.Equal((Answer.Measure, ReasonCodes.OffsetChanged), Short(machine.Ask("r1")));
        Assert.Equal(Level.MeasureFirst, machine.Outlook.Level);
    }

    [Fact]
    public void An_offset_for_another_serial_means_nothing_here()
    {
        var machine = Probed();
        Set(machine, serial: "S9");

        Assert.Null(machine.State.Offset);
        Assert.NotEqual(Answer.GoWithOffset, machine.Ask("r1").Answer);
    }

    [Fact]
    public void A_permit_with_an_offset_is_taken_back_when_the_room_warms_and_the_offset_no_longer_fits()
    {
        var machine = Probed();
        Set(machine);
        machine.Ask("r1");
        machine.Air = 26;
        machine.For(TimeSpan.FromMinutes(9), Minute);

        Assert.Equal((PermitFate.Revoked, "the offset no longer fits"), (machine.State.Permits.Newest!.Fate, machine.State.Permits.Newest.RevokedBecause));
        Assert.Equal((Answer.Measure, ReasonCodes.OffsetChanged), Short(machine.Ask("r2")));
    }

    [Fact]
    public void Probing_the_datum_anew_ends_the_offset_and_its_permit()
    {
        var machine = Probed();
        Set(machine);
        machine.Ask("r1");
        machine.Take(new DatumProbed(machine.Now, "M1", [Axis.X, Axis.Y, Axis.Z]));

        Assert.Null(machine.State.Offset);
        Assert.Equal(PermitFate.Revoked, machine.State.Permits.Newest!.Fate);
    }

    [Fact]
    public void A_permit_without_an_offset_is_taken_back_when_one_is_set()
    {
        var machine = new WatchedMachine().Load();
        machine.Ask("r1");
        Set(machine, scale: 1.00001);

        Assert.Equal((PermitFate.Revoked, "an offset was set"), (machine.State.Permits.Newest!.Fate, machine.State.Permits.Newest.RevokedBecause));
    }

    [Fact]
    public void Another_part_ends_it() => Assert.Null(Set(Probed()).Load(serial: "S2").State.Offset);

    [Fact]
    public void It_is_remembered_over_a_restart()
    {
        var machine = Set(Probed());
        machine.Ask("r1");
        var (read, reason) = MachineStateJson.Read(MachineStateJson.Text(machine.State));

        Assert.Null(reason);
        Assert.Equal((machine.State.Offset, machine.State.SpanProbedAt), (read!.Offset, read.SpanProbedAt));
        Assert.Equal(machine.State.Offset, read.Permits.Newest!.Offset);
    }

    private static WatchedMachine Cold() => new WatchedMachine().Load(startCelsius: 18.2, uncertainty: 0.3);

    // 400 mm of a blank that is 1.8 K cold: 0.4 m · 11.6 · −1.8 = −8.4 µm.
    private static WatchedMachine Probed()
    {
        var machine = Cold();
        return machine.Take(new SpanProbed(machine.Now, "M1") { LengthMillimetres = 400, ErrorMicrometres = -8.4, UMicrometres = 1 });
    }

    private static WatchedMachine Set(WatchedMachine machine, string serial = "S1", double? scale = null)
    {
        var proposed = machine.State.Prospect?.Offset;
        return machine.Take(new OffsetSet(machine.Now, "M1")
        {
            Serial = serial,
            ScaleFactor = scale ?? proposed!.ScaleFactor,
            ShiftXMicrometres = proposed?.ShiftXMicrometres ?? 0,
            ShiftYMicrometres = proposed?.ShiftYMicrometres ?? 0,
            ShiftZMicrometres = proposed?.ShiftZMicrometres ?? 0,
            By = "R. Lindt",
        });
    }

    private static (Answer Answer, string Code) Short(PermitAnswer answer) => (answer.Answer, answer.ReasonCode);
}
