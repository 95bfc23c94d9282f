using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>Something besides plain mismatch and drift that acts on a feature, linear in the temperatures.</summary>
/// <remarks>Its value in µm is constant + part·(Tp − ref) + scale·(Ts − ref) + fixture·(Tf − ref). Immutable.</remarks>
internal sealed record EffectTerm(string Label, TermKind Kind, Axis Axis)
{
    public double Constant { get; init; }

    public double PartGain { get; init; }

    public double ScaleGain { get; init; }

    public double FixtureGain { get; init; }

    /// <summary>Standard uncertainty as a share of the value.</summary>
    public double RelativeUncertainty { get; init; }

    /// <summary>Standard uncertainty of <see cref="FixtureGain"/>, in µm/K.</summary>
    public double UFixtureGain { get; init; }

    public double At(double part, double scale, double fixture) =>
        Constant + (PartGain * part) + (ScaleGain * scale) + (FixtureGain * fixture);

    /// <summary>The terms of a feature, in the order of the plant file's keys.</summary>
    public static IReadOnlyList<EffectTerm> Of(Feature feature, Machine machine, Material material, double referenceCelsius)
    {
        var terms = new List<EffectTerm>();
        if (feature.FixturePin is { } pin && feature is DepthFeature or DistanceFeature or PositionFeature)
        {
            terms.Add(OfPin(feature.FixturePin!, feature, machine));
        }

        if (feature.Bending is { } bend && (bend.Body == BendingBody.Column || feature is DepthFeature or DistanceFeature))
        {
            terms.Add(OfGradient(bend, material));
        }

        if (feature.Bolted is { } bolted && feature is DepthFeature or DistanceFeature)
        {
            terms.Add(OfSubplate(feature.Bolted!, material, referenceCelsius));
        }

        return terms;
    }

    // q·(αs·dTs·(1 − ks) − αf·dTf): differential expansion between fixture and scale up to the pin.
    private static EffectTerm OfPin(FixturePin pin, Feature feature, Machine machine)
    {
        var metres = FormulaInput.NotNegative(pin.DistanceMillimetres, "mm") * 1e-3;
        var kind = feature is PositionFeature ? TermKind.Shift : TermKind.Length;
        return new("expansion of the fixture up to the pin", kind, pin.Axis)
        {
            ScaleGain = machine.Scale.Compensated ? 0 : metres * machine.Scale.AlphaMicrometresPerMetreKelvin,
            FixtureGain = -metres * Alpha(pin.AlphaMicrometresPerMetreKelvin),
            UFixtureGain = metres * FormulaInput.NotNegative(pin.UAlphaMicrometresPerMetreKelvin, "µm/(m K)"),
        };
    }

    private static EffectTerm OfGradient(GradientBend bend, Material material)
    {
        const double CastIron = 11;
        var alpha = bend.AlphaMicrometresPerMetreKelvin ?? (bend.Body == BendingBody.Column ? CastIron : material.AlphaMicrometresPerMetreKelvin);
        var curvature = GradientBow.CurvaturePerMetre(alpha, new(bend.AcrossKelvins), bend.ThicknessMillimetres);
        var (label, kind, micrometres) = bend.Body switch
        {
            BendingBody.Column => ("bending of the column", TermKind.Drift, GradientBow.CantileverTipMicrometres(curvature, bend.LengthMillimetres)),
            BendingBody.Disc => ("bending of the disc", TermKind.Length, GradientBow.DiscMicrometres(curvature, bend.LengthMillimetres)),
            _ => ("bending of the plate", TermKind.Length, GradientBow.BowMicrometres(curvature, bend.LengthMillimetres)),
        };
        return new(label, kind, bend.Axis)
        {
            Constant = micrometres,
            RelativeUncertainty = FormulaInput.NotNegative(bend.RelativeUncertainty, ""),
        };
    }

    // The strip formula takes one change of temperature; what bends is the difference of the strains, so each layer may have its own.
    private static EffectTerm OfSubplate(BoltedPlate bolted, Material material, double referenceCelsius)
    {
        var strip = new TwoLayerStrip
        {
            First = new(bolted.SubplateThicknessMillimetres, 0, bolted.SubplateModulusGigapascals),
            Second = new(bolted.PartThicknessMillimetres, 1, bolted.PartModulusGigapascals),
        };
        var perStrain = strip.BowMicrometres(new(1), bolted.LengthMillimetres);
        var part = perStrain * material.AlphaMicrometresPerMetreKelvin;
        var subplate = perStrain * Alpha(bolted.SubplateAlphaMicrometresPerMetreKelvin);
        var since = FormulaInput.Finite(bolted.BoltedAtCelsius, "°C") - referenceCelsius;
        return new("bow of the bolted plate", TermKind.Length, default)
        {
            // The part is judged later, free and at one temperature, so what bowed up under the tool is missing then.
            Constant = (part - subplate) * since,
            PartGain = -part,
            FixtureGain = subplate,
            RelativeUncertainty = FormulaInput.NotNegative(bolted.RelativeUncertainty, ""),
        };
    }

    private static double Alpha(double value) => FormulaInput.InRange(value, Expansion.LowestAlpha, Expansion.HighestAlpha, Expansion.AlphaUnit, "alpha");
}

/// <summary>How a term acts.</summary>
internal enum TermKind
{
    /// <summary>It adds to the length; probing the datum again leaves it.</summary>
    Length,

    /// <summary>It moves the feature along an axis; probing the datum again leaves it.</summary>
    Shift,

    /// <summary>It moves the tool along an axis; probing the datum again takes it away.</summary>
    Drift,
}
