using ClimateGuard.Thermal;

namespace ClimateGuard.Evidence;

/// <summary>Which modes agree with what a device showed of a known artefact measured warm: ask once, verify once.</summary>
/// <remarks>Normalising a value the device has already normalised is the costliest import mistake; this is the experiment that rules it out.</remarks>
public static class DeviceModeCheck
{
    /// <summary>Holds the error seen against the error each mode would leave.</summary>
    /// <param name="errorMicrometres">Reported length minus certified length at 20 °C, in µm.</param>
    /// <param name="uMicrometres">Its standard uncertainty (reading and certificate), in µm, above 0.</param>
    /// <param name="lengthMillimetres">Length of the artefact, in mm, above 0.</param>
    /// <param name="temperatures">Of the artefact as "part", and of the device.</param>
    /// <param name="coverage">How many standard uncertainties still agree, above 0.</param>
    /// <returns>The modes that agree; the statement of the device's owner should be the only one. More than one: measure it warmer.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static IReadOnlyList<DeviceCompensation> ModesThatAgree(
        double errorMicrometres, double uMicrometres, double lengthMillimetres, InspectionTemperatures temperatures, double coverage = 2)
    {
        EvidenceInput.Finite(errorMicrometres);
        EvidenceInput.Positive(uMicrometres);
        EvidenceInput.Positive(coverage);
        var metres = EvidenceInput.Positive(lengthMillimetres) / 1000;
        return
        [
            .. Enum.GetValues<DeviceCompensation>().Where(mode => mode != DeviceCompensation.Unknown)
                .Where(mode => ReferenceCorrection.For(mode, temperatures).PerMetre is { } perMetre && Agrees(perMetre)),
        ];

        bool Agrees(UncertaintyBudget perMetre) => Math.Abs(errorMicrometres - (metres * perMetre.Estimate))
            <= coverage * double.Hypot(uMicrometres, metres * perMetre.StandardUncertaintyWithProducts);
    }
}
