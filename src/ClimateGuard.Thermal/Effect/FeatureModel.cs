using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>What temperature does to one feature on one machine.</summary>
/// <remarks>
/// E = L·eps + drift, eps = αs·(Ts − 20)·(1 − ks) − αp·(Tp − 20)·(1 − kp): nominal differential expansion (ISO/TR 16015; ASME B89.6.2) with
/// the sign turned, because here the part is cut warm and judged later at 20 °C. α is taken as constant, |T − 20| ≤ 30 K.
/// Immutable, safe across threads.
/// </remarks>
public sealed class FeatureModel
{
    private readonly Machine machine;
    private readonly Material material;
    private readonly StateLayout layout;
    private readonly double referenceCelsius;

    internal FeatureModel(Feature feature, Machine machine, Material material, StateLayout layout, double referenceCelsius)
    {
        Feature = feature;
        Geometry = FeatureGeometry.Of(feature, machine);
        BudgetMicrometres = feature.Budget.MicrometresFor(feature.ToleranceMillimetres);
        this.machine = machine;
        this.material = material;
        this.layout = layout;
        this.referenceCelsius = referenceCelsius;
    }

    /// <summary>The feature.</summary>
    public Feature Feature { get; }

    /// <summary>What temperature may take, in µm, positive.</summary>
    public double BudgetMicrometres { get; }

    internal FeatureGeometry Geometry { get; }

    internal double ScaleGain => machine.Scale.Compensated ? 0 : machine.Scale.AlphaMicrometresPerMetreKelvin;

    internal double UScaleAlpha => machine.Scale.Compensated ? 0 : machine.Scale.UAlphaMicrometresPerMetreKelvin;

    internal double UPartAlpha => machine.PartCompensated ? 0 : material.UAlphaMicrometresPerMetreKelvin;

    internal double PartGain => machine.PartCompensated ? 0 : material.AlphaMicrometresPerMetreKelvin;

    /// <summary>The effect at a state of the machine, with its uncertainty to first order (JCGM 100, 5.1.2) and the α·T products beyond it.</summary>
    /// <param name="model">The model that owns this feature.</param>
    /// <param name="state">A state of the machine.</param>
    public FeatureEffect At(ThermalModel model, ThermalState state)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(state);
        return At(model, state, driftCounts: !Geometry.DriftCountsFromCutStart);
    }

    /// <summary>The effect in a state whose drift counts from the start of the cut, also for a relation between two cuts.</summary>
    internal FeatureEffect DuringCut(ThermalModel model, ThermalState sinceStart) => At(model, sinceStart, driftCounts: true);

    private FeatureEffect At(ThermalModel model, ThermalState state, bool driftCounts)
    {
        var part = model.PartTemperature(state).Value - referenceCelsius;
        var scale = state[StateLayout.Scale] - referenceCelsius;
        var eps = (ScaleGain * scale) - (PartGain * part);
        var (x, y, z) = Drift(model, state, driftCounts);
        var near = Geometry.Near(eps, x, y, z);
        var u = Math.Sqrt(Contributions(model, state, near, part, scale, driftCounts).Sum(c => c.Micrometres * c.Micrometres));
        return new(near.At(eps, x, y, z), Geometry.Near(eps, 0, 0, 0).At(eps, 0, 0, 0), Geometry.Near(0, x, y, z).At(0, x, y, z), u);
    }

    /// <summary>What makes up the uncertainty of the effect at a state, each in µm; they combine as root of the sum of squares.</summary>
    /// <param name="model">The model that owns this feature.</param>
    /// <param name="state">A state of the machine.</param>
    public IReadOnlyList<UncertaintyShare> UncertaintyAt(ThermalModel model, ThermalState state)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(state);
        var part = model.PartTemperature(state).Value - referenceCelsius;
        var scale = state[StateLayout.Scale] - referenceCelsius;
        var driftCounts = !Geometry.DriftCountsFromCutStart;
        var (x, y, z) = Drift(model, state, driftCounts);
        return Contributions(model, state, Geometry.Near((ScaleGain * scale) - (PartGain * part), x, y, z), part, scale, driftCounts);
    }

    private static (double X, double Y, double Z) Drift(ThermalModel model, ThermalState state, bool counts) => counts
        ? (model.DriftMicrometres(state, Axis.X), model.DriftMicrometres(state, Axis.Y), model.DriftMicrometres(state, Axis.Z))
        : (0, 0, 0);

    private UncertaintyShare[] Contributions(
        ThermalModel model, ThermalState state, LinearEffect near, double part, double scale, bool driftCounts)
    {
        Span<double> gradient = stackalloc double[state.Count];
        gradient.Clear();
        FillTemperatures(model, state, near, gradient);
        var temperatures = state.Variance(gradient);
        if (driftCounts)
        {
            FillDrift(near, gradient);
        }

        var all = state.Variance(gradient);
        var uScale = UScaleAlpha * near.LengthMetres;
        var uPart = UPartAlpha * near.LengthMetres;

        // JCGM 100, 5.1.2 note: where (T − 20) is near zero the first order of α vanishes and the product term u(α)·u(T) is what is left.
        var scaleVariance = Math.Pow(state.StandardDeviation(StateLayout.Scale), 2) + (scale * scale);
        var partVariance = Math.Pow(model.PartUncertainty(state).Value, 2) + (part * part);
        return
        [
            new("temperature of part and scale", Math.Sqrt(temperatures)),
            new("drift since the datum was probed", Math.Sqrt(Math.Max(0, all - temperatures))),
            new("expansion of the part", Math.Abs(uPart) * Math.Sqrt(partVariance)),
            new("expansion of the scale", Math.Abs(uScale) * Math.Sqrt(scaleVariance)),
        ];
    }

    private void FillTemperatures(ThermalModel model, ThermalState state, LinearEffect near, Span<double> gradient)
    {
        var pair = model.NodesOf(state);
        gradient[StateLayout.PartFirst] = -near.LengthMetres * PartGain * pair.FirstWeight;
        gradient[StateLayout.PartSecond] = -near.LengthMetres * PartGain * pair.SecondWeight;
        gradient[StateLayout.Scale] = near.LengthMetres * ScaleGain;
    }

    private void FillDrift(LinearEffect near, Span<double> gradient)
    {
        for (var mode = 0; mode < layout.Modes.Count; mode++)
        {
            gradient[StateLayout.Displacement(mode)] = Along(near, layout.Modes[mode].Axis);
        }

        foreach (var axis in (ReadOnlySpan<Axis>)[Axis.X, Axis.Y, Axis.Z])
        {
            gradient[layout.Reference(axis)] = -Along(near, axis);
        }
    }

    private static double Along(LinearEffect near, Axis axis) => axis switch
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
