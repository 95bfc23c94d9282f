using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Plant;
using ClimateGuard.Simulator;
using ClimateGuard.Tests.Support;
using ClimateGuard.Thermal;
using Surroundings = ClimateGuard.Thermal.Surroundings;

namespace ClimateGuard.Tests.Thermal.MachineDrift;

/// <summary>The gantry of the sample cell through the scripted week: the air of the reference room in, the numbers of its text out.</summary>
public sealed class ReferenceWeekDriftTests
{
    private const int Saturday = 5 * 1440;
    private static readonly ReferenceWeek Week = ReferenceWeek.Play();
    private static readonly Cell Sample = PlantFileReader.Read(Repository.PathOf("config", "plant.yaml")).Cell!;
    private static readonly ThermalModel Gantry = new(Sample.FindMachine("M4")!, Sample.FindPart("VR-780"));

    // Monday after the set-back; the room is the reference room, whose air is within 0.02 K of the text's, so within 0.7 µm.
    [Theory]
    [InlineData(5, 21.6)]
    [InlineData(6, 25.4)]
    [InlineData(8, 26.8)]
    [InlineData(10, 24.9)]
    [InlineData(14, 19.1)]
    [InlineData(18, 14.3)]
    public void On_Monday_the_column_moves_on_after_the_air_has_settled(int hour, double micrometres) =>
        Assert.Equal(micrometres, ZFrom20(hour * 60), 0.7);

    // Saturday: the fan stands from 10:00 to 10:35; fast and slow mode pull apart, and the sign turns twice.
    [Theory]
    [InlineData(10 * 60, 0.1)]
    [InlineData((10 * 60) + 35, -7.9)]
    [InlineData(12 * 60, -2.9)]
    [InlineData(14 * 60, 3.0)]
    public void On_Saturday_its_sign_turns(int minute, double micrometres) => Assert.Equal(micrometres, ZFrom20(Saturday + minute), 1.0);

    [Fact]
    public void On_Tuesday_the_hunting_air_moves_it_by_two_micrometres()
    {
        var state = At(1440 + (14 * 60));
        var z = new List<double>();
        for (var minute = 1440 + (14 * 60); minute < 1440 + (18 * 60); minute++)
        {
            z.Add(Moves(state));
            Gantry.Advance(state, new Surroundings(Week.South[minute]), TimeSpan.FromMinutes(1));
        }

        Assert.Equal(2.0, z.Max() - z.Min(), 0.8);
    }

    // Monday 08:00: the groove depth may take 6 µm of drift; at 1.3 µm/h that is four hours, less what is not known of the machine.
    [Fact]
    public void On_Monday_a_datum_probed_at_eight_is_good_for_some_hours_and_the_offsets_of_Friday_are_not()
    {
        var state = Gantry.Settled(new Surroundings(20));
        var from = Week.SouthLead.Count;
        foreach (var air in Week.SouthLead.Concat(Week.South.Take(8 * 60))) Gantry.Advance(state, new Surroundings(air), TimeSpan.FromMinutes(1));
        var depth = Gantry.Effects.Single(effect => effect.Feature.Id == "groove-depth");

        var validity = ProbeValidity.For(Gantry, state, depth, new Surroundings(20), Sample.Description.Policies, [.. Week.South.Skip(8 * 60).Take(1440)])!;

        Assert.True(from > 0);
        Assert.Equal(TimeSpan.Zero, validity.Remaining);
        Assert.Equal(26.8, Gantry.DriftMicrometres(state, Axis.Z), 1.0);
        var unguarded = ProbeValidity.For(
            Gantry, state, depth, new Surroundings(20), Sample.Description.Policies with { GuardFactor = 0 }, [.. Week.South.Skip(8 * 60).Take(1440)])!;
        Assert.InRange(unguarded.WhenProbedNow!.Value.TotalHours, 3.8, 5.0);
        Assert.InRange(validity.WhenProbedNow!.Value.TotalHours, 2, 3);
        Assert.InRange(validity.FastestMicrometresPerHour, 1.1, 2.0);
        Assert.Equal(6 / validity.FastestMicrometresPerHour, validity.Interval!.Value.TotalHours, 1e-6);
    }

    [Fact]
    public void Where_nothing_drifts_a_datum_lasts_beyond_the_horizon_and_what_probing_takes_sets_the_shortest_interval()
    {
        var still = new ThermalModel(Some.Machine(), Some.Disc(), new ThermalNoise { DriftKelvinsPerRootHour = 0, LeastDriftMicrometresPerRootHour = 0 });
        var validity = ProbeValidity.For(still, still.Settled(new Surroundings(20)), still.Effects[0], new Surroundings(22), new Policies())!;
        Assert.Equal((null, null, null), (validity.Remaining, validity.WhenProbedNow, validity.Interval));

        var wild = new ThermalModel(Some.Machine() with { Drift = [new(Axis.X, 100, TimeSpan.FromMinutes(10))] }, Some.Disc());
        var fast = ProbeValidity.For(wild, wild.Settled(new Surroundings(20)), wild.Effects[0], new Surroundings(22), new Policies(), probing: TimeSpan.FromMinutes(3))!;
        Assert.Equal(TimeSpan.FromMinutes(30), fast.Interval);
        Assert.True(fast.WhenProbedNow < TimeSpan.FromMinutes(3));

        var size = new ThermalModel(Some.Machine(), Some.Disc(new SizeFeature { Id = "s", ToleranceMillimetres = 1, Budget = BudgetRule.Absolute(1), NominalMillimetres = 10 }));
        Assert.Null(ProbeValidity.For(size, size.Settled(new Surroundings(20)), size.Effects[0], new Surroundings(22), new Policies()));
    }

    // B_drift 9 µm, drift 2 µm/h known to 10 %, k 1.645: t = 9/(2·(1 + 0.1645)) = 3.86 h on a straight course.
    [Fact]
    public void On_a_straight_course_it_is_budget_less_guard_over_rate()
    {
        var noise = new ThermalNoise { DriftKelvinsPerRootHour = 0, LeastDriftMicrometresPerRootHour = 0, AirOffsetKelvins = 0, SensitivitySharePerRootWeek = 0 };
        var machine = Some.Machine() with { Drift = [new(Axis.X, 2000, TimeSpan.FromHours(1000), 0.1)] };
        var model = new ThermalModel(machine, Some.Disc(), noise);
        var validity = ProbeValidity.For(model, model.Settled(new Surroundings(20)), model.Effects[0], new Surroundings(21), new Policies())!;
        Assert.Equal(3.86, validity.WhenProbedNow!.Value.TotalHours, 0.03);
        Assert.Equal(2.0, validity.FastestMicrometresPerHour, 0.01);
        Assert.Equal(validity.WhenProbedNow, validity.Remaining);
    }

    private static double ZFrom20(int minute) => Moves(At(minute));

    private static double Moves(ThermalState state)
    {
        var moves = Gantry.Layout.Moves(Axis.Z);
        var sum = 0.0;
        for (var i = 0; i < moves.Length; i++) sum += moves[i] * state[i];
        return sum;
    }

    private static ThermalState At(int minute)
    {
        var state = Gantry.Settled(new Surroundings(20));
        foreach (var air in Week.SouthLead.Concat(Week.South.Take(minute)))
        {
            Gantry.Advance(state, new Surroundings(air), TimeSpan.FromMinutes(1));
        }

        return state;
    }
}
