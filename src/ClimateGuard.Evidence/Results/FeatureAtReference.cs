using ClimateGuard.Plant;

namespace ClimateGuard.Evidence;

/// <summary>An inspected feature taken to 20 °C: each value beside its correction, and the holes with theirs.</summary>
public sealed record FeatureAtReference
{
    /// <summary>Standard uncertainty taken where a device states none, in µm; common practice, no source.</summary>
    public const double UsualU = 3;

    // Of a stated temperature at an inspection, in K; common practice, no source.
    private const double UPart = 0.2;
    private const double UDevice = 0.1;

    /// <summary>The value that decides, with its correction.</summary>
    public required DeviationAtReference Worst { get; init; }

    /// <summary>The number of its hole, or null.</summary>
    public int? WorstHole { get; init; }

    /// <summary>The holes at 20 °C with their numbers; empty without vectors or where there is no one correction.</summary>
    public IReadOnlyList<(int Hole, HoleDeviation Deviation)> Holes { get; init; } = [];

    /// <summary>The correction that was used.</summary>
    public required ReferenceCorrection Correction { get; init; }

    /// <summary>Takes a feature to 20 °C.</summary>
    /// <remarks>
    /// A position with vectors is corrected hole by hole. Without them the direction of the correction is not known: the value stays, and what the
    /// correction could be is added to its uncertainty. A coaxiality has no length to grow.
    /// </remarks>
    /// <param name="inspected">The feature.</param>
    /// <param name="material">What the part is made of.</param>
    public static FeatureAtReference Of(InspectedFeature inspected, Material material)
    {
        ArgumentNullException.ThrowIfNull(inspected);
        ArgumentNullException.ThrowIfNull(material);
        var worst = inspected.Worst;
        var correction = ReferenceCorrection.For(worst.Compensation, Temperatures(worst, material));
        var vectors = inspected.Vectors;
        if (inspected.Feature is PositionFeature pattern)
        {
            return vectors.Count > 0 && correction.IsKnown ? WithHoles(inspected, vectors, material, correction) : WithoutHoles(worst, pattern, correction);
        }

        return new FeatureAtReference { Worst = correction.Apply(Reported(worst), Nominal(inspected.Feature)), WorstHole = worst.Hole, Correction = correction };
    }

    /// <summary>The length that temperature acts on, in mm; 0 for a coaxiality, twice the farthest hole for a position.</summary>
    public static double Nominal(Feature feature) => feature switch
    {
        SizeFeature size => size.NominalMillimetres,
        DepthFeature depth => depth.NominalMillimetres,
        DistanceFeature distance => distance.NominalMillimetres,
        PositionFeature position => 2 * position.Points.Max(point => point.Radius),
        _ => 0,
    };

    private static FeatureAtReference WithHoles(
        InspectedFeature inspected, IReadOnlyList<(int Hole, HoleDeviation Deviation)> vectors, Material material, ReferenceCorrection first)
    {
        // Holes measured at another time or by another device have a correction of their own.
        var by = inspected.Valid.Where(value => value.Hole is not null).ToDictionary(value => value.Hole!.Value);
        (int Hole, HoleDeviation Deviation)[] corrected =
        [
            .. vectors.Select(one => (one.Hole, Of(by[one.Hole], material, first) is { IsKnown: true } own ? own.Apply(one.Deviation) : one.Deviation)),
        ];
        var worst = corrected.MaxBy(one => double.Hypot(one.Deviation.Dx, one.Deviation.Dy));
        var reported = by[worst.Hole];
        var micrometres = 2 * double.Hypot(worst.Deviation.Dx, worst.Deviation.Dy);
        var radius = double.Hypot(worst.Deviation.X, worst.Deviation.Y) / 1000;
        var u = 2 * double.Hypot(reported.UMicrometres ?? UsualU, radius * first.PerMetre!.StandardUncertaintyWithProducts);
        return new FeatureAtReference
        {
            Correction = first,
            Holes = corrected,
            WorstHole = worst.Hole,
            Worst = new DeviationAtReference(
                Reported(reported), micrometres - reported.DeviationMicrometres, micrometres, u, new(micrometres, micrometres),
                FormattableString.Invariant($"{first.Mode}: {-first.PerMetre.Estimate:+0.00;-0.00;0.00} µm/m about the datum, hole by hole")),
        };
    }

    private static FeatureAtReference WithoutHoles(InspectionValue worst, PositionFeature pattern, ReferenceCorrection correction)
    {
        var reported = Reported(worst);
        if (correction.PerMetre is not { } perMetre)
        {
            var most = Math.Max(Math.Abs(correction.RangePerMetre.Low), Math.Abs(correction.RangePerMetre.High)) * Nominal(pattern) / 1000;
            return new FeatureAtReference
            {
                WorstHole = worst.Hole, Correction = correction,
                Worst = new DeviationAtReference(reported, null, null, null, new(Math.Max(0, reported.Micrometres - most), reported.Micrometres + most), string.Join("; ", correction.Missing)),
            };
        }

        var could = Math.Abs(perMetre.Estimate) * Nominal(pattern) / 1000;
        var u = double.Hypot(double.Hypot(reported.StandardUncertainty, could), perMetre.StandardUncertaintyWithProducts * Nominal(pattern) / 1000);
        return new FeatureAtReference
        {
            WorstHole = worst.Hole, Correction = correction,
            Worst = new DeviationAtReference(
                reported, 0, reported.Micrometres, u, new(Math.Max(0, reported.Micrometres - could), reported.Micrometres + could),
                FormattableString.Invariant($"{correction.Mode}: no vectors, so up to {could:0.0} µm of the inspection's temperature stay in it")),
        };
    }

    private static ReferenceCorrection Of(InspectionValue value, Material material, ReferenceCorrection first) =>
        ReferenceCorrection.For(value.Compensation, Temperatures(value, material)) is { IsKnown: true } own ? own : first;

    private static ReportedDeviation Reported(InspectionValue value) =>
        new(value.DeviationMicrometres, value.UMicrometres ?? (value.Feature is PositionFeature or CoaxialityFeature ? 2 * UsualU : UsualU));

    private static InspectionTemperatures Temperatures(InspectionValue value, Material material) => new()
    {
        PartExpansion = new MeasuredExpansion(material.AlphaMicrometresPerMetreKelvin, material.UAlphaMicrometresPerMetreKelvin),
        // A device that corrected the part by its own temperature leaves nothing that depends on it but u(α)·ΔT: 3 K stand for "a measuring room".
        Part = value.PartCelsius is { } part ? new MeasuredTemperature(part, UPart)
            : value.Compensation == DeviceCompensation.DeviceAndPartSeparate ? new MeasuredTemperature(20, 3) : null,
        Device = value.DeviceCelsius is { } device ? new MeasuredTemperature(device, UDevice) : null,
        DeviceExpansion = value.DeviceAlphaMicrometresPerMetreKelvin is { } alpha ? new MeasuredExpansion(alpha, 0.5) : null,
    };
}
