namespace ClimateGuard.Evidence;

/// <summary>Whether temperatures of an inspection are possible, and which are missing for a mode.</summary>
internal static class InspectionChecks
{
    public static void Check(InspectionTemperatures given)
    {
        Expansion(given.PartExpansion, "expansion of the part");
        if (given.DeviceExpansion is { } ofDevice) Expansion(ofDevice, "expansion of the device");
        if (given.Part is { } part) Temperature(part, "temperature of the part");
        if (given.Device is { } device) Temperature(device, "temperature of the device");
        if (given.ExpansionUsedByDevice is { } used) InRange(used, -5, 100, "expansion used by the device", "µm/(m·K)");
        InRange(given.UDevicePartSensor, 0, 50, "uncertainty of the device's part sensor", "K");
    }

    public static IReadOnlyList<string> MissingFor(DeviceCompensation mode, InspectionTemperatures given)
    {
        List<string> missing = [];
        if (given.Part is null) missing.Add("the temperature of the part");
        if (mode is DeviceCompensation.None or DeviceCompensation.DeviceAndPartSame && given.Device is null) missing.Add("the temperature of the device");
        if (mode == DeviceCompensation.None && given.DeviceExpansion is null) missing.Add("the expansion of the device's scale");
        return missing;
    }

    private static void Temperature(MeasuredTemperature value, string name)
    {
        InRange(value.Celsius, -50, 150, name, "°C");
        InRange(value.StandardUncertainty, 0, 50, "uncertainty of the " + name, "K");
    }

    private static void Expansion(MeasuredExpansion value, string name)
    {
        InRange(value.MicrometresPerMetreKelvin, -5, 100, name, "µm/(m·K)");
        InRange(value.StandardUncertainty, 0, 50, "uncertainty of the " + name, "µm/(m·K)");
    }

    private static void InRange(double value, double low, double high, string name, string unit)
    {
        if (value >= low && value <= high) return;
        throw new ArgumentOutOfRangeException(name, value, FormattableString.Invariant($"The {name} must lie in [{low}, {high}] {unit}."));
    }
}
