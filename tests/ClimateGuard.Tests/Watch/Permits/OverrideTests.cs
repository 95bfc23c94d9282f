using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Tests.Watch.Machines;
using ClimateGuard.Thermal;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Permits;

public sealed class OverrideTests
{
    [Fact]
    public void A_person_may_take_the_responsibility_for_a_standard_part()
    {
        var machine = Cold(PartClass.Standard);
        machine.Take(Said(machine, "A. Berg"));

        Assert.Equal(Level.Bypassed, machine.Outlook.Level);
        Assert.Contains("A. Berg", machine.Outlook.Reason, StringComparison.Ordinal);
        Assert.Equal(Answer.GoOverridden, machine.Ask("r1").Answer);
    }

    [Fact]
    public void A_critical_part_needs_two_persons()
    {
        var machine = Cold(PartClass.Critical);
        machine.Take(Said(machine, "A. Berg"));
        Assert.Equal(Answer.Hold, machine.Ask("r1").Answer);

        machine.Take(Said(machine, "a. berg "));
        Assert.Equal(Answer.Hold, machine.Ask("r2").Answer);

        machine.Take(Said(machine, "C. Dahl"));
        Assert.Equal(Answer.GoOverridden, machine.Ask("r3").Answer);
    }

    [Fact]
    public void The_second_person_may_be_named_at_once()
    {
        var machine = Cold(PartClass.Critical);
        machine.Take(Said(machine, "A. Berg") with { ApprovedBy = "C. Dahl" });

        Assert.Equal(Answer.GoOverridden, machine.Ask("r1").Answer);
    }

    [Fact]
    public void An_override_covers_its_serial_and_operation_only()
    {
        var machine = Cold(PartClass.Standard);
        machine.Take(Said(machine, "A. Berg"));
        machine.Load(startCelsius: 12, serial: "S2");

        Assert.Equal(Level.Hold, machine.Outlook.Level);
        Assert.Null(machine.State.Override);
    }

    [Fact]
    public void An_override_ends_with_the_shift_at_the_latest()
    {
        // The shift of the cell ends at 14:00 in Vienna, 13:00 UTC in winter.
        var machine = Cold(PartClass.Standard);
        machine.Take(Said(machine, "A. Berg") with { Until = machine.Now.AddDays(3) });

        Assert.Equal(new DateTimeOffset(2026, 3, 2, 13, 0, 0, TimeSpan.Zero), machine.State.Override!.Until);

        machine.Tick(TimeSpan.FromHours(6.1));
        Assert.Null(machine.State.Override);
        Assert.NotEqual(Level.Bypassed, machine.Outlook.Level);
    }

    [Fact]
    public void An_override_that_is_over_before_it_begins_is_refused_with_the_reason()
    {
        var machine = Cold(PartClass.Standard);
        machine.Take(Said(machine, "A. Berg") with { Until = machine.Now.AddMinutes(-1) });

        Assert.Contains("ends before it begins", machine.Decisions.OfType<OverrideTaken>().Single().Refused, StringComparison.Ordinal);
        Assert.Equal(Level.Hold, machine.Outlook.Level);
    }

    [Theory]
    [InlineData("2026-03-29T00:30:00Z", "2026-03-29T05:00:00Z")] // the hour between 2 and 3 is skipped this night
    [InlineData("2026-10-25T00:30:00Z", "2026-10-25T06:00:00Z")] // the hour between 2 and 3 comes twice this night
    public void The_night_shift_ends_by_the_clock_on_the_wall_when_the_clock_is_changed(string now, string end)
    {
        var nights = new Shift("night", new TimeOnly(22, 0), new TimeOnly(7, 0), [.. Enum.GetValues<DayOfWeek>()]);
        var description = SmallCell.Of().Description;
        var cell = new Cell(description with { TimeZone = "Europe/Vienna", Policies = description.Policies with { Shifts = [nights] } });

        Assert.Equal(DateTimeOffset.Parse(end, System.Globalization.CultureInfo.InvariantCulture), new ShiftClock(cell).EndOfShift(DateTimeOffset.Parse(now, System.Globalization.CultureInfo.InvariantCulture)));
    }

    private static WatchedMachine Cold(PartClass partClass)
    {
        var description = SmallCell.Of(partClass: partClass).Description;
        var early = new Shift("early", new TimeOnly(6, 0), new TimeOnly(14, 0), [DayOfWeek.Monday]);
        var cell = new Cell(description with { TimeZone = "Europe/Vienna", Policies = description.Policies with { Shifts = [early] } });
        return new WatchedMachine(cell).Load(startCelsius: 12);
    }

    private static Overridden Said(WatchedMachine machine, string by) => new(machine.Now, "M1")
    {
        Serial = "S1", Operation = "40", By = by, Reason = "deadline", Until = machine.Now.AddHours(4),
    };
}
