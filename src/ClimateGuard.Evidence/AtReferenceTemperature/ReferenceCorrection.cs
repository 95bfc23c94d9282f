using ClimateGuard.Thermal;

namespace ClimateGuard.Evidence;

/// <summary>What temperature left in a device's readings, per metre, and how to take it out.</summary>
/// <remarks>
/// Reported length error per metre, with ΔT from 20 °C (ISO 1), p the part, g the device's scale:
/// NONE αp·ΔTp − αg·ΔTg; DEVICE_ONLY αp·ΔTp; DEVICE_AND_PART_SAME αp·(ΔTp − ΔTg) plus (αp − α used)·ΔTg; DEVICE_AND_PART_SEPARATE
/// (αp − α used)·ΔTp, and the error of its part sensor as uncertainty. It is subtracted (ISO/TR 16015, from memory). An unknown mode gives an
/// interval over all four. A value is corrected from <see cref="ReportedDeviation"/> to <see cref="DeviationAtReference"/>, a type that no
/// correction takes, so it cannot happen twice by mistake. Immutable; equality is that of the reference.
/// </remarks>
public sealed class ReferenceCorrection
{
    private ReferenceCorrection(DeviceCompensation mode, UncertaintyBudget? perMetre, Interval range, IReadOnlyList<string> missing)
    {
        Mode = mode;
        PerMetre = perMetre;
        RangePerMetre = range;
        Missing = missing;
    }

    /// <summary>The mode of the device.</summary>
    public DeviceCompensation Mode { get; }

    /// <summary>Error per metre in µm/m with its named contributions; null for an unknown mode or missing temperatures.</summary>
    public UncertaintyBudget? PerMetre { get; }

    /// <summary>From the lowest to the highest error per metre that is possible, in µm/m; infinite ends when temperatures are missing.</summary>
    /// <remarks>For a known mode ± 2u, for an unknown one the hull of all four.</remarks>
    public Interval RangePerMetre { get; }

    /// <summary>What would have to be known, in words; empty when all is.</summary>
    public IReadOnlyList<string> Missing { get; }

    /// <summary>Whether one number can be given: the mode is known and nothing is missing.</summary>
    public bool IsKnown => PerMetre is not null;

    /// <summary>The correction of a device's readings.</summary>
    /// <param name="mode">What the device has already done.</param>
    /// <param name="temperatures">What is known of the inspection.</param>
    /// <returns>The correction; with something missing it says what.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A temperature, expansion or uncertainty lies outside its range.</exception>
    public static ReferenceCorrection For(DeviceCompensation mode, InspectionTemperatures temperatures)
    {
        ArgumentNullException.ThrowIfNull(temperatures);
        InspectionChecks.Check(temperatures);
        if (!Enum.IsDefined(mode)) throw new ArgumentOutOfRangeException(nameof(mode), mode, "mode must be one of the named ones.");
        if (mode == DeviceCompensation.Unknown) return OverAllModes(temperatures);
        var missing = InspectionChecks.MissingFor(mode, temperatures);
        if (missing.Count > 0) return new(mode, null, new(double.NegativeInfinity, double.PositiveInfinity), missing);
        var budget = ModeBudget.Of(mode, temperatures);
        return new(mode, budget, Interval.Around(budget.Estimate, 2 * budget.StandardUncertaintyWithProducts), []);
    }

    /// <summary>Takes temperature out of a deviation along a length.</summary>
    /// <param name="reported">The deviation as reported, not corrected by anyone since.</param>
    /// <param name="lengthMillimetres">The signed length or coordinate it belongs to, from the datum, in mm.</param>
    /// <returns>The deviation at 20 °C beside the correction made.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public DeviationAtReference Apply(ReportedDeviation reported, double lengthMillimetres)
    {
        ArgumentNullException.ThrowIfNull(reported);
        EvidenceInput.Finite(reported.Micrometres);
        EvidenceInput.NotNegative(reported.StandardUncertainty);
        var metres = EvidenceInput.Finite(lengthMillimetres) / 1000;
        if (reported.AlreadyAtReference)
        {
            return new DeviationAtReference(
                reported, 0, reported.Micrometres, reported.StandardUncertainty, new(reported.Micrometres, reported.Micrometres),
                "corrected to 20 °C before it was imported; not corrected again");
        }

        var range = metres == 0
            ? new Interval(reported.Micrometres, reported.Micrometres)
            : metres > 0
                ? new Interval(reported.Micrometres - (metres * RangePerMetre.High), reported.Micrometres - (metres * RangePerMetre.Low))
                : new Interval(reported.Micrometres - (metres * RangePerMetre.Low), reported.Micrometres - (metres * RangePerMetre.High));
        if (PerMetre is not { } perMetre) return new DeviationAtReference(reported, null, null, null, range, string.Join("; ", Missing));
        var correction = -metres * perMetre.Estimate;
        return new DeviationAtReference(
            reported,
            correction,
            reported.Micrometres + correction,
            double.Hypot(reported.StandardUncertainty, metres * perMetre.StandardUncertaintyWithProducts),
            range,
            FormattableString.Invariant($"{Mode}: {correction:+0.0;-0.0;0.0} µm over {lengthMillimetres:0.###} mm"));
    }

    /// <summary>Takes temperature out of a hole of a pattern: scale about the datum and nothing else.</summary>
    /// <param name="hole">As reported, from the datum.</param>
    /// <returns>The hole at 20 °C.</returns>
    /// <exception cref="InvalidOperationException">The mode is unknown or a temperature is missing, so there is no one correction.</exception>
    public HoleDeviation Apply(HoleDeviation hole)
    {
        if (PerMetre is not { } perMetre)
            throw new InvalidOperationException($"There is no one correction: {string.Join("; ", Missing)}.");
        return hole with { Dx = hole.Dx - (hole.X / 1000 * perMetre.Estimate), Dy = hole.Dy - (hole.Y / 1000 * perMetre.Estimate) };
    }

    private static ReferenceCorrection OverAllModes(InspectionTemperatures temperatures)
    {
        ReferenceCorrection[] all =
        [
            For(DeviceCompensation.None, temperatures), For(DeviceCompensation.DeviceOnly, temperatures),
            For(DeviceCompensation.DeviceAndPartSame, temperatures), For(DeviceCompensation.DeviceAndPartSeparate, temperatures),
        ];
        var hull = new Interval(all.Min(one => one.RangePerMetre.Low), all.Max(one => one.RangePerMetre.High));
        return new(DeviceCompensation.Unknown, null, hull, ["the compensation mode of the device", .. all.SelectMany(one => one.Missing).Distinct()]);
    }
}
