using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Tests.Watch.Machines;
using ClimateGuard.Thermal;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Permits;

public sealed class PermitTests
{
    private static readonly TimeSpan Minute = TimeSpan.FromMinutes(1);

    [Fact]
    public void A_soaked_part_gets_a_permit_for_ten_minutes_bound_to_machine_serial_and_operation()
    {
        var machine = new WatchedMachine().Load();
        var answer = machine.Ask("r1");

        Assert.Equal(Answer.Go, answer.Answer);
        Assert.Equal(("M1", "S1", "40"), (answer.Permit!.Machine, answer.Permit.Serial, answer.Permit.Operation));
        Assert.Equal(TimeSpan.FromMinutes(10), answer.Permit.ValidUntil - answer.Permit.IssuedAt);
    }

    [Fact]
    public void A_cold_blank_gets_a_hold_with_the_numbers_on_the_control_s_screen()
    {
        var answer = new WatchedMachine().Load(startCelsius: 12).Ask("r1");

        Assert.Equal(Answer.Hold, answer.Answer);
        Assert.Null(answer.Permit);
        Assert.Equal(ReasonCodes.Mismatch, answer.ReasonCode);
        Assert.InRange(answer.Text.Length, 10, PermitAnswer.MostCharacters);
        Assert.Contains("holes", answer.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_same_request_again_gets_the_same_answer_and_no_second_permit()
    {
        var machine = new WatchedMachine().Load();
        var first = machine.Ask("r1");
        machine.Tick(TimeSpan.FromSeconds(2));

        var again = machine.Ask("r1");

        Assert.Equal(first, again);
        Assert.Equal(1, machine.State.Permits.Given);
    }

    [Fact]
    public void A_request_id_with_another_content_is_refused_and_gets_no_permit()
    {
        var machine = new WatchedMachine().Load();
        machine.Ask("r1");

        var other = machine.Ask("r1", operation: "50");

        Assert.Equal((Answer.Hold, ReasonCodes.IdReused), (other.Answer, other.ReasonCode));
        Assert.Null(other.Permit);
    }

    [Fact]
    public void A_request_that_waited_in_a_queue_is_not_answered_with_a_go()
    {
        var answer = new WatchedMachine().Load().Ask("r1", age: TimeSpan.FromSeconds(12));

        Assert.Equal((Answer.Unknown, ReasonCodes.TooOld), (answer.Answer, answer.ReasonCode));
        Assert.Null(answer.Permit);
    }

    [Fact]
    public void A_wrong_serial_is_held()
    {
        var answer = new WatchedMachine().Load().Ask("r1", serial: "S9");

        Assert.Equal((Answer.Hold, ReasonCodes.NotLoaded), (answer.Answer, answer.ReasonCode));
        Assert.Contains("S1 is loaded", answer.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void An_unknown_part_cannot_be_judged()
    {
        var machine = new WatchedMachine();
        machine.Tick();

        Assert.Equal((Answer.Unknown, ReasonCodes.PartUnknown), Short(machine.Ask("r1", part: "NO-SUCH")));
    }

    [Fact]
    public void A_control_that_asks_without_a_job_says_what_is_loaded_itself_and_must_measure()
    {
        var machine = new WatchedMachine { Hall = 26 };
        machine.Tick();

        var answer = machine.Ask("r1");

        Assert.NotEqual(Answer.Go, answer.Answer);
        Assert.Equal("S1", machine.State.Job!.Serial);
    }

    [Fact]
    public void Lost_air_means_unknown_and_never_go()
    {
        var machine = new WatchedMachine().Load();
        machine.Air = double.NaN;
        machine.Tick(Minute);

        Assert.Equal((Answer.Unknown, ReasonCodes.InputMissing), Short(machine.Ask("r1")));
    }

    [Fact]
    public void A_start_of_the_cut_uses_the_permit_up()
    {
        var machine = new WatchedMachine().Load();
        machine.Ask("r1");
        machine.Take(Cut(machine, started: true));

        Assert.Equal(PermitFate.Used, machine.State.Permits.Newest!.Fate);
        Assert.Equal(machine.State.Permits.Newest.Id, machine.State.Cut!.PermitId);
    }

    [Fact]
    public void A_cut_that_starts_without_a_permit_is_reported_and_not_stopped()
    {
        var machine = new WatchedMachine().Load(startCelsius: 12);
        machine.Ask("r1");
        machine.Take(Cut(machine, started: true));

        Assert.Single(machine.Decisions.OfType<CutWithoutPermit>());
        Assert.NotNull(machine.State.Cut);
        Assert.Contains("Let the running cut finish", machine.Outlook.Action, StringComparison.Ordinal);
    }

    [Fact]
    public void A_newer_permit_takes_the_place_of_the_older_so_that_never_two_hold()
    {
        var machine = new WatchedMachine().Load();
        var first = machine.Ask("r1").Permit!;
        machine.Tick(Minute);
        var second = machine.Ask("r2").Permit!;

        Assert.NotEqual(first.Id, second.Id);
        Assert.Contains(machine.Decisions.OfType<PermitChanged>(), changed => changed.Permit.Id == first.Id && changed.Permit.Fate == PermitFate.Superseded);
    }

    [Fact]
    public void Another_part_on_the_machine_takes_the_permit_back()
    {
        var machine = new WatchedMachine().Load();
        machine.Ask("r1");
        machine.Load(serial: "S2");

        Assert.Equal(PermitFate.Revoked, machine.State.Permits.Newest!.Fate);
    }

    [Fact]
    public void A_jump_of_the_coolant_takes_the_permit_back()
    {
        var machine = new WatchedMachine().Load();
        machine.Ask("r1");
        machine.Coolant = 20.7;
        machine.Tick(Minute);

        Assert.Equal(PermitFate.Revoked, machine.State.Permits.Newest!.Fate);
        Assert.Contains("coolant", machine.State.Permits.Newest.RevokedBecause, StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_takes_a_permit_back_once_its_cut_has_started()
    {
        var machine = new WatchedMachine().Load();
        machine.Ask("r1");
        machine.Take(Cut(machine, started: true));
        machine.Coolant = 25;
        machine.Air = double.NaN;
        machine.Tick(Minute);

        Assert.Equal(PermitFate.Used, machine.State.Permits.Newest!.Fate);
    }

    [Fact]
    public void A_hold_that_was_answered_stands_until_a_request_is_answered_go()
    {
        var machine = new WatchedMachine().Load(startCelsius: 12);
        machine.Ask("r1");
        Assert.NotNull(machine.State.Permits.Latch);

        machine.Take(new CoolantSwitched(machine.Now, "M1", On: true)).For(TimeSpan.FromHours(2), TimeSpan.FromMinutes(5));
        Assert.NotNull(machine.State.Permits.Latch);

        Assert.Equal(Answer.Go, machine.Ask("r2").Answer);
        Assert.Null(machine.State.Permits.Latch);
    }

    [Fact]
    public void A_measurement_ends_a_hold_at_once_and_scores_it()
    {
        var machine = new WatchedMachine().Load(startCelsius: 15, uncertainty: 1);
        machine.Ask("r1");
        machine.Take(new ContactMeasured(machine.Now, "M1") { Value = new Celsius(20.05), Uncertainty = new Kelvins(0.1) });

        Assert.Null(machine.State.Permits.Latch);
        Assert.NotEqual(Level.Hold, machine.Outlook.Level);
        var score = Assert.Single(machine.Decisions.OfType<HoldScored>()).Score;
        Assert.Equal(HoldVerdict.Refuted, score.Verdict);
    }

    [Fact]
    public void A_measurement_that_finds_the_part_as_cold_as_predicted_confirms_the_hold()
    {
        var machine = new WatchedMachine().Load(startCelsius: 15, uncertainty: 0.5);
        machine.Ask("r1");
        machine.Take(new ContactMeasured(machine.Now, "M1") { Value = new Celsius(15.2), Uncertainty = new Kelvins(0.1) });

        Assert.Equal(HoldVerdict.Confirmed, Assert.Single(machine.Decisions.OfType<HoldScored>()).Score.Verdict);
    }

    private static (Answer, string) Short(PermitAnswer answer) => (answer.Answer, answer.ReasonCode);

    private static CutMoved Cut(WatchedMachine machine, bool started) => new(machine.Now, "M1") { Started = started, Serial = "S1", Operation = "40" };
}
