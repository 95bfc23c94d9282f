using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

public sealed partial class FeatureModel
{
    /// <summary>What makes up the uncertainty of the effect at a state, each in µm; they combine as root of the sum of squares.</summary>
    /// <remarks>
    /// What the state leaves open is split by its sources one after the other, each for what the ones before leave (as in a Cholesky root), so
    /// that shares of correlated numbers still add up. The first is what all air sensors get wrong together: it moves part and scale
    /// alike and acts as L·(αs − αp)·u, not as L·√(αs² + αp²)·u (JCGM 100, 5.2.2).
    /// </remarks>
    /// <param name="model">The model that owns this feature.</param>
    /// <param name="state">A state of the machine.</param>
    public IReadOnlyList<UncertaintyShare> UncertaintyAt(ThermalModel model, ThermalState state)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(state);
        var now = Now(model, state);
        var near = Near(now, Sum(now));
        Span<double> temperatures = stackalloc double[state.Count];
        Span<double> drift = stackalloc double[state.Count];
        Fill(model, state, near, now.DriftCounts, temperatures, drift);
        var shares = new List<UncertaintyShare>(StateShares.Of(layout, state, temperatures, drift));
        var (part, scale) = AlphaVariances(model, state, near, now);
        shares.Add(new("expansion of the part", Math.Sqrt(part)));
        shares.Add(new("expansion of the scale", Math.Sqrt(scale)));
        foreach (var term in Terms)
        {
            shares.Add(new(term.Label, Math.Sqrt(TermVariance(term, state, near, now))));
        }

        return shares;
    }

    private double Variance(ThermalModel model, ThermalState state, in LinearEffect near, in Moment now)
    {
        Span<double> gradient = stackalloc double[state.Count];
        Span<double> drift = stackalloc double[state.Count];
        Fill(model, state, near, now.DriftCounts, gradient, drift);
        for (var i = 0; i < gradient.Length; i++)
        {
            gradient[i] += drift[i];
        }

        var (part, scale) = AlphaVariances(model, state, near, now);
        var sum = state.Variance(gradient) + part + scale;
        foreach (var term in Terms)
        {
            sum += TermVariance(term, state, near, now);
        }

        return sum;
    }

    /// <summary>
    /// JCGM 100, 5.1.2 note: where (T − 20) is near zero the first order of α vanishes and the product term u(α)·u(T) is what is left.
    /// </summary>
    private (double Part, double Scale) AlphaVariances(ThermalModel model, ThermalState state, in LinearEffect near, in Moment now)
    {
        var uPart = UPartAlpha * near.LengthMetres;
        var uScale = UScaleAlpha * near.LengthMetres;
        var spread = model.PartUncertainty(state).Value;
        return (
            uPart * uPart * ((spread * spread) + (now.Part * now.Part)),
            uScale * uScale * (state.VarianceOf(StateLayout.Scale) + (now.Scale * now.Scale)));
    }

    private static double TermVariance(EffectTerm term, ThermalState state, in LinearEffect near, in Moment now)
    {
        var along = term.Kind == TermKind.Length ? 1 : Along(near, term.Axis);
        var share = along * term.RelativeUncertainty * term.At(now.Part, now.Scale, now.Fixture);
        var gain = along * term.UFixtureGain;
        return (share * share) + (gain * gain * (state.VarianceOf(StateLayout.Fixture) + (now.Fixture * now.Fixture)));
    }

    private void Fill(
        ThermalModel model, ThermalState state, in LinearEffect near, bool driftCounts, Span<double> temperatures, Span<double> drift)
    {
        temperatures.Clear();
        drift.Clear();
        var part = -near.LengthMetres * PartGain;
        var scale = near.LengthMetres * ScaleGain;
        foreach (var term in Terms)
        {
            var along = term.Kind == TermKind.Length ? 1 : Along(near, term.Axis);
            part += along * term.PartGain;
            scale += along * term.ScaleGain;
            temperatures[StateLayout.Fixture] += along * term.FixtureGain;
        }

        var pair = model.NodesOf(state);
        temperatures[StateLayout.PartFirst] = part * pair.FirstWeight;
        temperatures[StateLayout.PartSecond] = part * pair.SecondWeight;
        temperatures[StateLayout.Scale] = scale;
        for (var axis = Axis.X; axis <= Axis.Z && driftCounts; axis++)
        {
            var along = Along(near, axis);
            var moves = layout.Moves(axis);
            for (var i = 0; i < drift.Length && along != 0; i++)
            {
                drift[i] += along * moves[i];
            }

            drift[layout.Reference(axis)] = -along;
        }
    }

    private static double Along(in LinearEffect near, Axis axis) => axis switch
    {
        Axis.X => near.X,
        Axis.Y => near.Y,
        _ => near.Z,
    };
}

/// <summary>One share of an uncertainty.</summary>
/// <param name="Label">Where it comes from, in plain words.</param>
/// <param name="Micrometres">Standard uncertainty, in µm, zero or more.</param>
public sealed record UncertaintyShare(string Label, double Micrometres);
