using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

public sealed partial class FeatureModel
{
    /// <summary>Draws for 95 % with the two digits that are shown (JCGM 101, 7.2.2 asks for 200 000 where they are to be sure).</summary>
    public const int UsualTrials = 50_000;

    private const int Temperatures = 3;
    private const int Numbers = 6;

    /// <summary>The uncertainty of the effect in both ways.</summary>
    /// <param name="model">The model that owns this feature.</param>
    /// <param name="state">A state of the machine.</param>
    /// <param name="seed">The question's own seed: the same question gets the same answer.</param>
    /// <param name="trials">How many draws, in [100, 100 000 000].</param>
    /// <exception cref="ArgumentOutOfRangeException">The number of draws lies outside its range.</exception>
    public EffectUncertainty UncertaintyOf(ThermalModel model, ThermalState state, ulong seed, int trials = UsualTrials)
    {
        var effect = At(model, state);
        var drawn = Draw(model, state, seed, trials);
        return new EffectUncertainty
        {
            EffectMicrometres = effect.EffectMicrometres,
            UMicrometres = effect.UMicrometres,
            ProductsMicrometres = Products(model, state),
            UMonteCarloMicrometres = drawn.StandardDeviation,
            MeanMonteCarloMicrometres = drawn.Mean,
            Interval95 = drawn.Shortest(0.95),
            Contributions = UncertaintyAt(model, state),
        };
    }

    private double Products(ThermalModel model, ThermalState state)
    {
        var now = Now(model, state);
        var length = Near(now, Sum(now)).LengthMetres;
        return double.Hypot(
            UPartAlpha * length * model.PartUncertainty(state).Value, UScaleAlpha * length * state.StandardDeviation(StateLayout.Scale));
    }

    /// <summary>The effect depends on the state through six numbers only: part, scale, fixture and three drifts; their joint normal is drawn.</summary>
    private MonteCarloResult Draw(ThermalModel model, ThermalState state, ulong seed, int trials)
    {
        var now = Now(model, state);
        var root = CovarianceRoot.Of(Joint(model, state), Numbers);
        double[] mean = [now.Part, now.Scale, now.Fixture, now.Drift.X, now.Drift.Y, now.Drift.Z];
        var normals = Enumerable.Repeat(InputDistribution.Gaussian(0, 1), Numbers + 2 + (Terms.Count > 0 ? 1 : 0)).ToArray();
        var drawn = new double[Numbers];
        return MonteCarlo.Propagate(
            normals,
            z =>
            {
                for (var i = 0; i < Numbers; i++)
                {
                    drawn[i] = mean[i];
                    for (var k = 0; k <= i; k++)
                    {
                        drawn[i] += root[(i * Numbers) + k] * z[k];
                    }
                }

                var scaleGain = ScaleGain == 0 ? 0 : ScaleGain + (UScaleAlpha * z[Numbers]);
                var partGain = PartGain == 0 ? 0 : PartGain + (UPartAlpha * z[Numbers + 1]);
                var terms = Terms.Count == 0 ? default : TermsAt(drawn[0], drawn[1], drawn[2], z[Numbers + 2]);
                return EffectAt((scaleGain * drawn[1]) - (partGain * drawn[0]), new(drawn[3], drawn[4], drawn[5]), terms);
            },
            trials,
            seed);
    }

    private double[] Joint(ThermalModel model, ThermalState state)
    {
        var n = state.Count;
        var weights = new double[Numbers * n];
        var pair = model.NodesOf(state);
        weights[StateLayout.PartFirst] = pair.FirstWeight;
        weights[StateLayout.PartSecond] = pair.SecondWeight;
        weights[n + StateLayout.Scale] = 1;
        weights[(2 * n) + StateLayout.Fixture] = 1;
        for (var axis = Axis.X; axis <= Axis.Z && !Geometry.DriftCountsFromCutStart; axis++)
        {
            var row = weights.AsSpan((Temperatures + (int)axis) * n, n);
            layout.Moves(axis).CopyTo(row);
            row[layout.Reference(axis)] = -1;
        }

        var joint = new double[Numbers * Numbers];
        for (var i = 0; i < Numbers; i++)
        {
            for (var k = 0; k < Numbers; k++)
            {
                joint[(i * Numbers) + k] = state.CovarianceOf(weights.AsSpan(i * n, n), weights.AsSpan(k * n, n));
            }
        }

        return joint;
    }
}
