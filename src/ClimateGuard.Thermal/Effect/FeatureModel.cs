using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>What temperature does to one feature on one machine.</summary>
/// <remarks>
/// E = L·eps + drift, eps = αs·(Ts − 20)·(1 − ks) − αp·(Tp − 20)·(1 − kp): nominal differential expansion (ISO/TR 16015; ASME B89.6.2) with
/// the sign turned, because here the part is cut warm and judged later at 20 °C. α is taken as constant, |T − 20| ≤ 30 K. Fixture pin,
/// gradient bending and the bow of a bolted plate come on top where the plant file states them. Immutable, safe across threads.
/// </remarks>
public sealed partial class FeatureModel
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
        Terms = EffectTerm.Of(feature, machine, material, referenceCelsius);
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

    /// <summary>What acts besides mismatch and drift; empty for most.</summary>
    internal IReadOnlyList<EffectTerm> Terms { get; }

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

    /// <summary>
    /// The effect in a state whose drift counts from the start of the cut, also for a relation between two cuts, with a mismatch in µm/m taken
    /// off by an offset in the control.
    /// </summary>
    internal FeatureEffect DuringCut(ThermalModel model, ThermalState sinceStart, double offset = 0) => At(model, sinceStart, driftCounts: true, offset);

    private FeatureEffect At(ThermalModel model, ThermalState state, bool driftCounts, double offset = 0)
    {
        var now = Now(model, state, driftCounts);
        now = now with { Eps = now.Eps - offset };
        var terms = Sum(now);
        var near = Near(now, terms);
        return new(
            EffectAt(now.Eps, now.Drift, terms),
            EffectAt(now.Eps, default, terms with { Drift = default }),
            EffectAt(0, now.Drift, terms with { Length = 0, Shift = default }),
            Math.Sqrt(Variance(model, state, near, now)));
    }

    /// <summary>The effect in µm of a mismatch and a drift with the terms; the one sum that decisions, paths and Monte Carlo share.</summary>
    internal double EffectAt(double eps, in Displacement drift, in TermSums terms)
    {
        var moved = drift + terms.Shift + terms.Drift;
        return Geometry.Near(eps, moved.X, moved.Y, moved.Z).At(eps, moved.X, moved.Y, moved.Z) + terms.Length;
    }

    /// <summary>What the terms sum to at differences from the reference temperature; all scaled by one factor.</summary>
    internal TermSums TermsAt(double part, double scale, double fixture, double deviations = 0)
    {
        var sums = default(TermSums);
        foreach (var term in Terms)
        {
            var value = term.At(part, scale, fixture) * (1 + (deviations * term.RelativeUncertainty));
            sums = term.Kind switch
            {
                TermKind.Length => sums with { Length = sums.Length + value },
                TermKind.Shift => sums with { Shift = sums.Shift + Displacement.Along(term.Axis, value) },
                _ => sums with { Drift = sums.Drift + Displacement.Along(term.Axis, value) },
            };
        }

        return sums;
    }

    private TermSums Sum(in Moment now) => Terms.Count == 0 ? default : TermsAt(now.Part, now.Scale, now.Fixture);

    private LinearEffect Near(in Moment now, in TermSums terms)
    {
        var moved = now.Drift + terms.Shift + terms.Drift;
        return Geometry.Near(now.Eps, moved.X, moved.Y, moved.Z);
    }

    private Moment Now(ThermalModel model, ThermalState state) => Now(model, state, !Geometry.DriftCountsFromCutStart);

    private Moment Now(ThermalModel model, ThermalState state, bool driftCounts)
    {
        var part = model.PartTemperature(state).Value - referenceCelsius;
        var scale = state[StateLayout.Scale] - referenceCelsius;
        var drift = driftCounts
            ? new Displacement(model.DriftMicrometres(state, Axis.X), model.DriftMicrometres(state, Axis.Y), model.DriftMicrometres(state, Axis.Z))
            : default;
        return new(part, scale, state[StateLayout.Fixture] - referenceCelsius, (ScaleGain * scale) - (PartGain * part), drift, driftCounts);
    }

    /// <summary>Differences from the reference in K, mismatch in µm/m, drift in µm.</summary>
    private readonly record struct Moment(double Part, double Scale, double Fixture, double Eps, Displacement Drift, bool DriftCounts);
}

/// <summary>What the terms of a feature sum to, in µm.</summary>
internal readonly record struct TermSums(double Length, Displacement Shift, Displacement Drift);

/// <summary>A displacement along X, Y, Z, in µm.</summary>
internal readonly record struct Displacement(double X, double Y, double Z)
{
    public static Displacement Along(Axis axis, double value) => axis switch
    {
        Axis.X => new(value, 0, 0),
        Axis.Y => new(0, value, 0),
        _ => new(0, 0, value),
    };

    public static Displacement operator +(in Displacement one, in Displacement other) => new(one.X + other.X, one.Y + other.Y, one.Z + other.Z);
}
