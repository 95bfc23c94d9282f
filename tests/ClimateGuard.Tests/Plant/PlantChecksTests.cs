using ClimateGuard.Plant;

namespace ClimateGuard.Tests.Plant;

public class PlantChecksTests
{
    private static readonly PlantContext Context = new([], zone => zone == "Europe/Vienna", () => ["Europe/Vienna", "UTC"]);

    [Fact]
    public void A_draft_with_nothing_in_it_contradicts_nothing() => Assert.Equal([], PlantChecks.Of(new CellDraft(), Context));

    [Fact]
    public void Entries_that_could_not_be_read_are_passed_over_and_keep_the_numbers_of_the_others()
    {
        var draft = new CellDraft { Zones = [null, new ZoneDraft { Id = "z" }, new ZoneDraft { Id = "z" }] };
        var problem = Assert.Single(PlantChecks.Of(draft, Context));
        Assert.Equal("/zones/2/id", problem.Path);
        Assert.Contains("the first is entry 2", problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Double_ids_are_found_in_every_list()
    {
        var draft = new CellDraft
        {
            Zones = [new() { Id = "a" }, new() { Id = "a" }],
            Sensors = [new() { Id = "a" }, new() { Id = "a" }],
            AirHandlers = [new() { Id = "a" }, new() { Id = "a" }],
            Machines = [new() { Id = "a" }, new() { Id = "a" }],
            Materials = [new() { Id = "a", Alpha = 1, Conductivity = 1, Density = 1, SpecificHeat = 1 }, new() { Id = "a" }],
            Parts = [new() { Number = "a", Features = [new() { Id = "a" }, new() { Id = "a" }] }, new() { Number = "a" }],
            Policies = new() { Shifts = [new() { Name = "a" }, new() { Name = "a" }] },
        };
        Assert.Equal(
            ["/airHandlers/1/id", "/machines/1/id", "/materials/1/id", "/parts/0/features/1/id", "/parts/1/number", "/policies/shifts/1/name", "/sensors/1/id", "/zones/1/id"],
            PlantChecks.Of(draft, Context).Select(p => p.Path).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Without_a_time_zone_database_the_message_says_what_to_install()
    {
        var bare = new PlantContext([], _ => false, () => ["UTC"]);
        var problem = Assert.Single(PlantChecks.Of(new CellDraft { TimeZone = "Europe/Vienna" }, bare));
        Assert.Contains("tzdata", problem.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(60.0, true)]
    [InlineData(60.001, false)]
    public void A_budget_may_take_the_whole_tolerance_and_no_more(double budgetUm, bool allowed)
    {
        var draft = new CellDraft { Parts = [new() { Features = [new() { ToleranceMm = 0.060, BudgetUm = budgetUm }] }] };
        Assert.Equal(allowed, PlantChecks.Of(draft, Context).Count == 0);
    }

    [Theory]
    [InlineData(0.0, false)]
    [InlineData(0.02, false)]
    [InlineData(11.5, false)]
    [InlineData(11.5e-6, true)]
    [InlineData(-1e-6, true)]
    public void A_coefficient_per_kelvin_is_recognised_by_its_size(double alpha, bool refused)
    {
        var draft = new CellDraft { Machines = [new() { Scale = new() { Alpha = alpha } }] };
        Assert.Equal(refused, PlantChecks.Of(draft, Context).Any(p => p.Path == "/machines/0/scale/alpha"));
    }

    [Fact]
    public void Building_from_an_unchecked_draft_says_what_is_missing()
    {
        var thrown = Assert.Throws<ArgumentException>(() => CellBuilder.Build(new CellDraft { Cell = "c", Zones = [new()] }, Context));
        Assert.StartsWith("/zones/0/id is missing", thrown.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_bolt_circle_runs_counter_clockwise_from_its_first_angle()
    {
        var points = new BoltCircle(100, 4, 90).Points();
        Assert.Equal([(0, 100), (-100, 0), (0, -100), (100, 0)], points.Select(p => ((int)Math.Round(p.X), (int)Math.Round(p.Y))));
    }
}
