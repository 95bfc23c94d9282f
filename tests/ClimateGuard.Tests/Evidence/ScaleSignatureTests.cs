using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Evidence;

/// <summary>The holes of a part whose blank nobody measured, held against what its machine makes of scale without temperature.</summary>
public sealed class ScaleSignatureTests
{
    // A plate dimensioned from its corner, 800 mm by 400 mm: what temperature does to it moves the middle of its holes as well.
    private static readonly PositionFeature Plate = Some.Holes() with
    {
        Datum = DatumKind.Corner, Strategy = CuttingStrategy.Interpolated,
        Points = [.. Enumerable.Range(0, 27).Select(i => new PatternPoint(100 * (i % 9), 200 * (i / 9)))],
    };

    private static readonly double Diameter = 2 * Math.Sqrt((0.8 * 0.8) + (0.4 * 0.4));

    [Fact]
    public void A_scale_far_beyond_what_the_machine_makes_is_a_signature()
    {
        var said = Signature(predicted: 46, measured: 47, others: 8, scatter: 2);
        Assert.StartsWith("the holes show a scale of 4", said, StringComparison.Ordinal);
        Assert.EndsWith("that M1 makes without temperature (8 episodes)", said, StringComparison.Ordinal);
    }

    // Student's t of 95 % two-sided with 8 degrees of freedom is 2.306 (any table): at ± 25 µm/m of scatter ± 58 may come by itself.
    [Fact]
    public void A_machine_that_makes_such_scales_by_itself_leaves_none() => Assert.Null(Signature(predicted: 46, measured: 47, others: 8, scatter: 25));

    [Fact]
    public void Three_other_episodes_are_too_few_to_know_what_the_machine_makes() => Assert.Null(Signature(predicted: 46, measured: 47, others: 3, scatter: 2));

    [Fact]
    public void Parts_that_were_predicted_no_better_say_nothing_of_the_machine() => Assert.Null(Signature(predicted: 46, measured: 47, others: 8, scatter: 2, uOthers: 60));

    [Fact]
    public void The_other_sign_is_none() => Assert.Null(Signature(predicted: -46, measured: 47, others: 8, scatter: 2));

    [Fact]
    public void Another_machine_says_nothing_of_this_one() => Assert.Null(Signature(predicted: 46, measured: 47, others: 8, scatter: 2, machine: "M2"));

    [Fact]
    public void Parts_of_one_shift_are_one_episode() => Assert.Null(Signature(predicted: 46, measured: 47, others: 8, scatter: 2, episodes: 3));

    private static string? Signature(double predicted, double measured, int others, double scatter, double uOthers = 5, string machine = "M1", int episodes = int.MaxValue)
    {
        var pattern = PatternEvidence.Of(SomeCut.Of(Plate, 30, _ => predicted), Plate, SomeCut.Measured(Plate, _ => measured, noise: 4), 40)!;
        var own = Point(0, "M1", "own", predicted, measured, 40);
        GroupPoint[] points = [own, .. Enumerable.Range(1, others).Select(i => Point(i, machine, $"{i % episodes}", 10, 10 + (i % 2 == 0 ? scatter : -scatter), uOthers))];
        return new ScaleSignature().Of(pattern, own, GroupAnalysis.Of("D-1", "holes", points, true, 60));
    }

    private static GroupPoint Point(int number, string machine, string episode, double predicted, double measured, double u) => new()
    {
        Serial = $"S{number}", Machine = machine, At = Some.Morning.AddDays(number), Episode = episode, Predicted = predicted * Diameter, Measured = measured * Diameter,
        UPredicted = u, UMeasured = 3, NaiveAirKelvins = 0, Exceeded = false, OutOfTolerance = false, Labels = new Dictionary<string, string>(StringComparer.Ordinal),
    };
}
