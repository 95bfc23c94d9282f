using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Thermal;
using CsCheck;

namespace ClimateGuard.Tests.Properties;

public sealed class EvidenceStatistics
{
    private static readonly Gen<double> Micrometres = Gen.Double[-50, 50];

    private static readonly Gen<HoleDeviation[]> Pattern = Gen.Select(Gen.Double[-400, 400], Gen.Double[-400, 400], Micrometres, Micrometres,
        (x, y, dx, dy) => new HoleDeviation(x, y, dx, dy)).Array[6, 20];

    [Fact]
    public void Turning_the_frame_changes_neither_scale_nor_rotation_and_turns_the_translation() => Gen.Select(Pattern, Gen.Double[-3, 3]).Sample(
        (holes, angle) =>
        {
            var (sine, cosine) = Math.SinCos(angle);
            HoleDeviation[] turned =
            [
                .. holes.Select(h => new HoleDeviation(
                    (cosine * h.X) - (sine * h.Y), (sine * h.X) + (cosine * h.Y), (cosine * h.Dx) - (sine * h.Dy), (sine * h.Dx) + (cosine * h.Dy))),
            ];
            var (plain, other) = (SimilarityFit.Of(holes), SimilarityFit.Of(turned));
            return Near(plain.ScaleMicrometresPerMetre.Value, other.ScaleMicrometresPerMetre.Value)
                && Near(plain.RotationMicroradians.Value, other.RotationMicroradians.Value)
                && Near(plain.TranslationLength, other.TranslationLength)
                && Near(plain.ResidualRms, other.ResidualRms);
        },
        iter: 300);

    [Fact]
    public void A_growth_added_to_a_pattern_is_added_to_its_scale_and_to_nothing_else() => Gen.Select(Pattern, Gen.Double[-80, 80]).Sample(
        (holes, growth) =>
        {
            HoleDeviation[] grown = [.. holes.Select(h => h with { Dx = h.Dx + (growth * h.X / 1000), Dy = h.Dy + (growth * h.Y / 1000) })];
            var (plain, other) = (SimilarityFit.Of(holes), SimilarityFit.Of(grown));
            return Near(plain.ScaleMicrometresPerMetre.Value + growth, other.ScaleMicrometresPerMetre.Value)
                && Near(plain.RotationMicroradians.Value, other.RotationMicroradians.Value)
                && Near(plain.DatumTranslationX.Value, other.DatumTranslationX.Value)
                && Near(plain.ResidualRms, other.ResidualRms);
        },
        iter: 300);

    [Fact]
    public void The_parts_of_a_pattern_and_its_residual_make_up_the_whole() => Pattern.Sample(
        holes =>
        {
            var fit = SimilarityFit.Of(holes);
            double s = fit.ScaleMicrometresPerMetre.Value / 1000, turn = fit.RotationMicroradians.Value / 1000;
            return holes.Zip(fit.Residuals).All(pair =>
                Near(pair.First.Dx, fit.DatumTranslationX.Value + (s * pair.First.X) - (turn * pair.First.Y) + pair.Second.Dx)
                && Near(pair.First.Dy, fit.DatumTranslationY.Value + (s * pair.First.Y) + (turn * pair.First.X) + pair.Second.Dy));
        },
        iter: 300);

    [Fact]
    public void Shuffled_labels_give_a_uniform_p()
    {
        // 4 of 12 episodes: 495 arrangements, each dealt with its own noise; p must be uniform on k/495.
        var noise = new GaussianStream(2024);
        double[] p = [.. Enumerable.Range(0, 2000).Select(_ =>
            EpisodePermutation.Exchange([.. Enumerable.Range(0, 12).Select(i => new Episode(i < 4 ? 1 : 0, [noise.Next(), noise.Next()]))]).PValue)];
        Array.Sort(p);
        var distance = p.Select((value, i) => Math.Abs(value - ((i + 0.5) / p.Length))).Max();
        Assert.InRange(distance, 0, 0.036); // Kolmogorov: 1.63/√2000 at 1 %
        Assert.InRange(p.Count(value => value <= 0.05) / 2000.0, 0.035, 0.065);
    }

    [Fact]
    public void Shuffled_labels_give_a_uniform_p_when_arrangements_are_drawn()
    {
        var noise = new GaussianStream(77);
        double[] p = [.. Enumerable.Range(0, 60).Select(k =>
            EpisodePermutation.Exchange([.. Enumerable.Range(0, 24).Select(_ => new Episode(noise.Next(), [noise.Next()]))], seed: (ulong)k).PValue)];
        Array.Sort(p);
        Assert.InRange(p.Select((value, i) => Math.Abs(value - ((i + 0.5) / p.Length))).Max(), 0, 0.21); // 1.63/√60 at 1 %
    }

    [Fact]
    public void Tests_without_effect_claim_one_in_twenty()
    {
        var noise = new GaussianStream(31);
        double[] Draw(int n) => [.. Enumerable.Range(0, n).Select(_ => noise.Next())];
        var welch = Enumerable.Range(0, 2000).Count(_ => WelchTest.Test(Draw(8), Draw(15)).PValue <= 0.05) / 2000.0;
        var slope = Enumerable.Range(0, 2000).Count(_ => LinearRegression.Line(Draw(12), Draw(12)).Coefficient(1).PValue() <= 0.05) / 2000.0;
        Assert.InRange(welch, 0.035, 0.065);
        Assert.InRange(slope, 0.035, 0.065);
    }

    [Fact]
    public void A_feature_that_cannot_react_shows_no_slope()
    {
        var noise = new GaussianStream(8);
        double[] Draw(double spread) => [.. Enumerable.Range(0, 60).Select(_ => spread * noise.Next())];
        var findings = Enumerable.Range(0, 1000).Select(_ => NegativeControl.Of(LinearRegression.Line(Draw(5), Draw(2)).Coefficient(1)).Finding).ToList();
        // The interval of 95 % claims a slope where there is none one time in twenty, and there are enough parts to exclude a slope of 1.
        Assert.InRange(findings.Count(finding => finding == ControlFinding.Reacts), 30, 72);
        Assert.DoesNotContain(ControlFinding.TooFewToTell, findings);
    }

    /// <summary>Of x that vary by a micrometre at least: less is lost in the last digits of a large shift.</summary>
    [Fact]
    public void Moving_and_stretching_x_moves_and_stretches_the_line() => Gen.Select(
        Gen.Select(Micrometres, Micrometres).Array[5, 30], Gen.Double[0.1, 10], Gen.Double[-1e5, 1e5])
        .Where(t => t.Item1.Max(p => p.Item1) - t.Item1.Min(p => p.Item1) > 1)
        .Sample(
            (points, stretch, shift) =>
            {
                double[] x = [.. points.Select(p => p.Item1)], y = [.. points.Select(p => p.Item2)];
                var (plain, other) = (LinearRegression.Line(x, y), LinearRegression.Line([.. x.Select(v => (v * stretch) + shift)], y));
                return Near(plain.Coefficients[1], other.Coefficients[1] * stretch, 1e-7) && Near(plain.ResidualSumOfSquares, other.ResidualSumOfSquares, 1e-7);
            },
            iter: 300);

    [Fact]
    public void Fishers_p_does_not_care_which_way_the_table_lies() => Gen.Select(Gen.Int[0, 40], Gen.Int[0, 40], Gen.Int[0, 40], Gen.Int[0, 40]).Sample(
        (a, b, c, d) =>
        {
            var p = FisherExact.Test(new TwoByTwo(a, b, c, d));
            var greater = FisherExact.Test(new TwoByTwo(a, b, c, d), Alternative.Greater).PValue;
            return Near(p.PValue, FisherExact.Test(new TwoByTwo(a, c, b, d)).PValue, 1e-9)
                && Near(p.PValue, FisherExact.Test(new TwoByTwo(d, c, b, a)).PValue, 1e-9)
                && Near(greater, FisherExact.Test(new TwoByTwo(b, a, d, c), Alternative.Less).PValue, 1e-9)
                && p.MidP <= p.PValue;
        },
        iter: 500);

    [Fact]
    public void Adjusted_p_is_never_smaller_and_keeps_the_order() => Gen.Double[0, 1].Array[1, 40].Sample(
        p =>
        {
            var (hochberg, holm) = (MultipleTesting.BenjaminiHochberg(p), MultipleTesting.Holm(p));
            return Enumerable.Range(0, p.Length).All(i => hochberg.Adjusted[i] >= p[i] - 1e-15 && holm.Adjusted[i] >= hochberg.Adjusted[i] - 1e-15)
                && Enumerable.Range(0, p.Length).All(i => Enumerable.Range(0, p.Length).All(j => p[i] > p[j] || holm.Adjusted[i] <= holm.Adjusted[j]));
        },
        iter: 300);

    [Fact]
    public void Taking_a_bolt_circle_to_20_degrees_takes_its_growth_out() => Gen.Select(Gen.Double[100, 800], Gen.Int[3, 36], Gen.Double[10, 30], Gen.Double[9, 24]).Sample(
        (radius, count, celsius, alpha) =>
        {
            var growth = alpha * (celsius - 20);
            var correction = ReferenceCorrection.For(
                DeviceCompensation.DeviceOnly, new InspectionTemperatures { PartExpansion = new(alpha, 0.3), Part = new(celsius, 0.1) });
            HoleDeviation[] at20 =
            [
                .. new BoltCircle(radius, count, 5).Points().Select(p => correction.Apply(new HoleDeviation(p.X, p.Y, growth * p.X / 1000, growth * p.Y / 1000))),
            ];
            return Math.Abs(SimilarityFit.Of(at20, 1).ScaleMicrometresPerMetre.Value) < 1e-9;
        },
        iter: 200);

    [Fact]
    public void Clopper_Pearson_covers_what_it_says() => Gen.Select(Gen.Int[1, 60], Gen.Double[0.001, 0.999]).Sample(
        (trials, share) =>
        {
            double covered = 0, weight = Math.Pow(1 - share, trials);
            for (var k = 0; k <= trials; k++)
            {
                if (ProportionInterval.ClopperPearson(k, trials).Contains(share)) covered += weight;
                weight *= (trials - k) / (k + 1.0) * share / (1 - share);
            }

            return covered >= 0.95 - 1e-9;
        },
        iter: 60);

    private static bool Near(double expected, double actual, double tolerance = 1e-8) => Math.Abs(expected - actual) <= tolerance * (1 + Math.Abs(expected));
}
