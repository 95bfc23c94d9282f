using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Evidence;

/// <summary>The error that a device leaves per metre in each mode, with its contributions.</summary>
internal static class ModeBudget
{
    private const string PartExpansion = "expansion of the part";
    private const string PartTemperature = "temperature of the part";
    private const string DeviceExpansion = "expansion of the device";
    private const string DeviceTemperature = "temperature of the device";
    private const string PartSensor = "part sensor of the device";

    public static UncertaintyBudget Of(DeviceCompensation mode, InspectionTemperatures given)
    {
        double alpha = given.PartExpansion.MicrometresPerMetreKelvin, used = given.ExpansionUsedByDevice ?? alpha;
        var part = FromReference(given.Part!.Value);
        var device = given.Device is { } taken ? FromReference(taken) : 0;
        return mode switch
        {
            DeviceCompensation.None => Uncompensated(given, alpha, part, device),
            DeviceCompensation.DeviceOnly => new UncertaintyBudget(
                alpha * part, [OfPartExpansion(given, part), OfPartTemperature(given, alpha)], products: [new(PartExpansion, PartTemperature, 1)]),
            DeviceCompensation.DeviceAndPartSame => new UncertaintyBudget(
                (alpha * part) - (used * device),
                [OfPartExpansion(given, part), OfPartTemperature(given, alpha), OfDeviceTemperature(given, -used)],
                products: [new(PartExpansion, PartTemperature, 1)]),
            // The device has subtracted α used by its own reading of the part: what it misread stays in the value.
            _ => new UncertaintyBudget(
                (alpha - used) * part,
                [OfPartExpansion(given, part), OfPartTemperature(given, alpha - used), new(PartSensor, 0, given.UDevicePartSensor, used)],
                products: [new(PartExpansion, PartTemperature, 1)]),
        };
    }

    private static UncertaintyBudget Uncompensated(InspectionTemperatures given, double alpha, double part, double device)
    {
        var ofScale = given.DeviceExpansion!.Value;
        return new UncertaintyBudget(
            (alpha * part) - (ofScale.MicrometresPerMetreKelvin * device),
            [
                OfPartExpansion(given, part),
                OfPartTemperature(given, alpha),
                new(DeviceExpansion, ofScale.MicrometresPerMetreKelvin, ofScale.StandardUncertainty, -device),
                OfDeviceTemperature(given, -ofScale.MicrometresPerMetreKelvin),
            ],
            products: [new(PartExpansion, PartTemperature, 1), new(DeviceExpansion, DeviceTemperature, -1)]);
    }

    private static Contribution OfPartExpansion(InspectionTemperatures given, double part) =>
        new(PartExpansion, given.PartExpansion.MicrometresPerMetreKelvin, given.PartExpansion.StandardUncertainty, part);

    private static Contribution OfPartTemperature(InspectionTemperatures given, double sensitivity) =>
        new(PartTemperature, given.Part!.Value.Celsius, given.Part.Value.StandardUncertainty, sensitivity);

    private static Contribution OfDeviceTemperature(InspectionTemperatures given, double sensitivity) =>
        new(DeviceTemperature, given.Device!.Value.Celsius, given.Device.Value.StandardUncertainty, sensitivity);

    private static double FromReference(MeasuredTemperature temperature) => temperature.Celsius - Celsius.Reference.Value;
}
