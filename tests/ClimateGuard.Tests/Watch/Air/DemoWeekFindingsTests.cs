using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Plant;
using ClimateGuard.Simulator;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Air;

/// <summary>What the watch of the air tells of the scripted week, whose incidents are known.</summary>
public sealed class DemoWeekFindingsTests(DemoWeekFindingsTests.Week week) : IClassFixture<DemoWeekFindingsTests.Week>
{
    // cause, where, days and hours since Monday 00:00 between which it must be told first
    public static TheoryData<string, string, double, double> Incidents => new()
    {
        { "F01", "ahu2", 1 + (14 / 24.0), 1 + (17 / 24.0) },
        { "F07", "ahu1", 2 + (11 / 24.0), 2 + (16 / 24.0) },
        { "F18", "ahu2", 2 + (17 / 24.0), 3.01 },
        { "F32", "M3", 3 + (9 / 24.0), 3 + (10 / 24.0) },
        { "F16", "ahu2", 3 + (15 / 24.0), 3 + (15.25 / 24.0) },
        { "F12", "ahu2", 5 + (10 / 24.0), 5 + (10.5 / 24.0) },
        { "F27", "ahu1", 5 + (16 / 24.0), 6 + (12 / 24.0) },
    };

    [Theory]
    [MemberData(nameof(Incidents))]
    public void An_incident_is_told_in_its_time(string cause, string where, double after, double before)
    {
        var told = week.Findings.First(f => f.Finding.Place.Cause == cause && f.Finding.Place.Where == where);

        Assert.InRange(week.DaysOf(told.Time), after, before);
    }

    [Fact]
    public void The_filter_is_told_and_not_the_capacity_that_it_explains() =>
        Assert.DoesNotContain(week.Findings, f => f.Finding.Place is { Cause: "F06", AirHandler: "ahu1" } && week.DaysOf(f.Time) is > 2 and < 3);

    [Fact]
    public void What_is_over_is_closed_and_nothing_chatters()
    {
        var door = week.Findings.Where(f => f.Finding.Place.Cause == "F16").ToList();
        Assert.Equal([FindingState.Open, FindingState.Closed], door.Select(f => f.Finding.State));
        Assert.InRange(week.DaysOf(door[1].Time), 3 + (15.5 / 24), 3 + (16 / 24.0));

        Assert.All(week.Findings.GroupBy(f => f.Finding.Place), told => Assert.InRange(told.Count(f => f.Finding.State == FindingState.Open), 0, 2));
    }

    [Fact]
    public void The_open_door_and_the_standing_fan_are_excursions_of_their_zone()
    {
        var door = week.Excursions.Single(e => e.Excursion is { Zone: "S", End: not null } && week.DaysOf(e.Excursion.Begin) is > 3.6 and < 3.7).Excursion;
        var fan = week.Excursions.Single(e => e.Excursion is { Zone: "S", End: not null } && week.DaysOf(e.Excursion.Begin) is > 5.4 and < 5.5).Excursion;

        Assert.InRange(door.PeakKelvins, 1.0, 2.5);
        Assert.InRange(fan.PeakKelvins, 6, 9);
        Assert.Contains(fan.Jobs, job => job is { Machine: "M4", Part: "VR-780", Serial: "VR-780-2207" });
    }

    [Fact]
    public void The_pressure_of_the_filter_moved_when_it_was_loaded_and_before_the_command_and_the_room()
    {
        var moved = week.Findings.First(f => f.Finding.Place.Cause == "F07").Finding.MovedFirst.ToList();
        int At(string signal) => moved.FindIndex(one => one.Signal == signal);

        Assert.True(At("filter pressure") >= 0 && At("filter pressure") < At("room air"), string.Join(", ", moved));
        Assert.InRange(week.DaysOf(moved[At("filter pressure")].At), 2 + (10.9 / 24), 2 + (11.2 / 24));
    }

    [Fact]
    public void The_same_week_tells_the_same() =>
        Assert.Equal(week.Findings.Select(f => f.Finding.Id), new Week(TimeSpan.FromDays(3)).Findings.Select(f => f.Finding.Id).Concat(
            week.Findings.Where(f => week.DaysOf(f.Time) > 3).Select(f => f.Finding.Id)));

    public sealed class Week
    {
        private readonly DateTimeOffset monday;

        public Week()
            : this(TimeSpan.FromDays(7))
        {
        }

        internal Week(TimeSpan length)
        {
            var cell = PlantFileReader.Read(Repository.PathOf("config", "plant.yaml")).Cell!;
            var world = new VirtualCell(cell, DemoScripts.Week(cell, 1));
            var air = new AirWatch(cell, AirPace.Usual);
            monday = DemoScripts.MondayMidnight(cell);
            while (world.Now < monday + length)
            {
                var decisions = new List<Decision>();
                world.Advance(
                    world.Now.AddMinutes(1),
                    reading => air.Take(new TrustedReading(reading, reading.Value, Trust.Accepted, TrustReason.None)),
                    happened => air.Take(happened, world.Now, [], decisions));
                air.Pass(world.Now, [], decisions);
                Findings.AddRange(decisions.OfType<FindingTold>());
                Excursions.AddRange(decisions.OfType<ExcursionTold>());
            }
        }

        internal List<FindingTold> Findings { get; } = [];

        internal List<ExcursionTold> Excursions { get; } = [];

        internal double DaysOf(DateTimeOffset time) => (time - monday).TotalDays;
    }
}
