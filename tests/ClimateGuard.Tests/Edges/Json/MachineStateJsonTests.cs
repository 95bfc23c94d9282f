using ClimateGuard.Edges.Json;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Watch.Machines;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Edges.Json;

public sealed class MachineStateJsonTests
{
    [Fact]
    public void A_machine_goes_on_after_a_restart_exactly_as_it_would_have_gone_on_without()
    {
        var machine = new WatchedMachine().Load(startCelsius: 13);
        machine.Ask("r1");
        machine.Take(new CoolantSwitched(machine.Now, "M1", On: true)).For(TimeSpan.FromMinutes(7), TimeSpan.FromMinutes(1));
        machine.Take(new Overridden(machine.Now, "M1") { Serial = "S1", Operation = "40", By = "A. Berg", Reason = "deadline", Until = machine.Now.AddHours(1) });

        var (restored, reason) = MachineStateJson.Read(MachineStateJson.Text(machine.State));

        Assert.Null(reason);
        Assert.Equal(MachineStateJson.Text(machine.State), MachineStateJson.Text(restored!));
        Assert.Equal(machine.State.Permits.Latch, restored!.Permits.Latch);
        Assert.Equal(machine.State.Permits.Answers.Single().Answer.RequestId, restored.Permits.Answers.Single().Answer.RequestId);
        Assert.Equal(machine.State.Override, restored.Override);
        Assert.Equal(machine.State.Thermal!.Means.ToArray(), restored.Thermal!.Means.ToArray());
        Assert.Equal(machine.State.Seq, restored.Seq);
    }

    [Fact]
    public void A_state_that_cannot_be_read_is_no_state_and_says_why()
    {
        var (state, reason) = MachineStateJson.Read("""{"Machine":"M1","At":"yesterday"}""");

        Assert.Null(state);
        Assert.NotNull(reason);
    }

    [Fact]
    public void A_machine_that_knows_nothing_yet_can_be_kept_too()
    {
        var (restored, _) = MachineStateJson.Read(MachineStateJson.Text(new WatchedMachine().State));

        Assert.Equal("M1", restored!.Machine);
        Assert.Equal(Level.NoJob, restored.Timing.Shown);
    }
}
