using ClimateGuard.Enclosure;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Enclosure;

/// <summary>What records of a room with known parameters tell, and what they cannot tell.</summary>
public sealed class RoomIdentificationTests
{
    // The loads of the reference room are heat by definition; everything else begins a factor of 1.2 to 2.5 off.
    private static readonly RoomPriors LoadsAreHeat = RoomPriors.Usual.With(RoomParameter.LoadShare, 1, 1.02)
        .With(RoomParameter.AirHeat, 8e6, 3).With(RoomParameter.MassHeat, 120e6, 3).With(RoomParameter.ToHall, 500, 3).With(RoomParameter.FullFlow, 9000, 3);

    [Fact]
    public void An_eventful_week_of_the_reference_room_gives_its_parameters()
    {
        var found = Identified(ReferenceDays.Play(7, eventful: true), LoadsAreHeat);

        Near(3.6e6, RoomParameter.AirHeat, 0.10);
        Near(70e6, RoomParameter.MassHeat, 0.20);
        Near(2300, RoomParameter.AirToMass, 0.10);
        Near(280, RoomParameter.ToHall, 0.25);
        Near(6050, RoomParameter.FullFlow, 0.10);
        Near(2000, RoomParameter.NextZone, 0.25);
        Assert.All(found.Intervals, interval => Assert.True(interval.Identified, interval.ToString()));
        Assert.Empty(found.Words);
        Assert.True(found.Validation.Holds, found.Validation.ToString());
        Assert.Equal(2, found.Validation.Days);

        void Near(double truth, RoomParameter parameter, double share)
        {
            Assert.InRange(found.Room[parameter], truth * (1 - share), truth * (1 + share));
            var interval = found.Intervals.Single(i => i.Parameter == parameter);
            Assert.InRange(truth, interval.Low * 0.9, interval.High * 1.1);
        }
    }

    [Fact]
    public void A_control_that_keeps_everything_still_identifies_nothing_and_says_what_would()
    {
        var found = Identified(ReferenceDays.Play(4, eventful: false, hallSwing: 0), RoomPriors.Usual, unseenDays: 1);

        Assert.False(found.Knows(RoomParameter.AirHeat));
        Assert.False(found.Knows(RoomParameter.MassHeat));
        Assert.False(found.Knows(RoomParameter.ToHall));
        Assert.False(found.Knows(RoomParameter.FullFlow));
        Assert.Contains("We cannot tell wall loss from machine heat yet; leave one weekend with the machines off.", found.Words);
        Assert.Contains(found.Words, word => word.Contains("because the control keeps the air still", StringComparison.Ordinal));
    }

    [Fact]
    public void Closed_loop_with_a_swinging_hall_alone_does_not_tell_the_mass()
    {
        var found = Identified(ReferenceDays.Play(4, eventful: false, hallSwing: 4), RoomPriors.Usual, unseenDays: 1);

        Assert.False(found.Knows(RoomParameter.AirHeat));
        Assert.False(found.Knows(RoomParameter.MassHeat));
        Assert.False(found.Knows(RoomParameter.AirToMass));
        Assert.False(found.Knows(RoomParameter.ToHall));

        // What is said of the balance holds the truth all the same.
        foreach (var parameter in (RoomParameter[])[RoomParameter.ToHall, RoomParameter.FullFlow, RoomParameter.LoadShare])
        {
            var interval = found.Intervals.Single(i => i.Parameter == parameter);
            Assert.InRange(ReferenceDays.North[parameter], interval.Low, interval.High);
        }
    }

    [Fact]
    public void A_fan_that_was_measured_is_known_without_the_data() =>
        Assert.True(Identified(ReferenceDays.Play(4, eventful: false), RoomPriors.Usual.With(RoomParameter.FullFlow, 6050, 1.1), unseenDays: 1).Knows(RoomParameter.FullFlow));

    [Fact]
    public void Without_power_the_heat_is_not_told_from_the_flow()
    {
        var minutes = ReferenceDays.Play(5, eventful: true).Select(m => m with { LoadKilowatts = double.NaN });
        var found = Identified(minutes, RoomPriors.Usual, unseenDays: 1);

        Assert.Contains("The power of the machines is not measured: their heat is part of what nobody measures.", found.Words);
        Assert.DoesNotContain(found.Intervals, interval => interval.Parameter == RoomParameter.LoadShare);
        Assert.False(found.Knows(RoomParameter.ToHall) && found.Knows(RoomParameter.FullFlow));
    }

    [Fact]
    public void A_gap_of_hours_does_not_move_the_parameters()
    {
        var minutes = ReferenceDays.Play(7, eventful: true);
        minutes.RemoveRange(3000, 400);
        var found = Identified(minutes, LoadsAreHeat);

        Assert.InRange(found.Room[RoomParameter.AirHeat], 3.6e6 * 0.9, 3.6e6 * 1.1);
        Assert.InRange(found.Room[RoomParameter.FullFlow], 6050 * 0.9, 6050 * 1.1);
    }

    [Fact]
    public void Validation_fails_where_the_room_has_changed()
    {
        // In the last two days half of the supply air goes elsewhere, and nothing measures that.
        var minutes = ReferenceDays.Play(7, eventful: true);
        for (var i = 5 * ReferenceDays.Day; i < minutes.Count; i++)
        {
            minutes[i] = minutes[i] with { SupplyCelsius = minutes[i].AirCelsius + (2 * (minutes[i].SupplyCelsius - minutes[i].AirCelsius)) };
        }

        Assert.False(Identified(minutes, LoadsAreHeat).Validation.Holds);
    }

    [Fact]
    public void What_is_missing_is_said_instead_of_guessed()
    {
        var minutes = ReferenceDays.Play(3, eventful: false);
        Assert.Equal(
            "There is no sensor in the supply air: the heat that the air handler takes away is not known.",
            RoomRecord.Of(minutes.Select(m => m with { SupplyCelsius = double.NaN })).WhyNot);
        Assert.Equal(
            "There is no sensor in the hall: the heat through the walls is not known.",
            RoomRecord.Of(minutes.Select(m => m with { HallCelsius = double.NaN })).WhyNot);
        var (found, whyNot) = RoomIdentification.Of(RoomRecord.Of(minutes.Take(20 * 60)).Record!, RoomPriors.Usual);
        Assert.Null(found);
        Assert.Equal("20 h with air, supply and hall are too few to describe the room; 48 h are needed.", whyNot);
    }

    [Fact]
    public void Minutes_out_of_order_or_twice_are_left_out()
    {
        var minutes = ReferenceDays.Play(1, eventful: false);
        var record = RoomRecord.Of([.. minutes.Take(100), minutes[50], minutes[99], .. minutes.Skip(110)]).Record!;

        Assert.Equal(minutes.Count, record.Count);
        Assert.Equal(minutes.Count - 10, record.KnownSteps);
    }

    private static RoomIdentification Identified(IEnumerable<ZoneMoment> minutes, RoomPriors priors, int unseenDays = 2)
    {
        var (record, whyNot) = RoomRecord.Of(minutes);
        Assert.Null(whyNot);
        var (found, whyNotFound) = RoomIdentification.Of(record!, priors, unseenDays);
        Assert.Null(whyNotFound);
        return found!;
    }
}
