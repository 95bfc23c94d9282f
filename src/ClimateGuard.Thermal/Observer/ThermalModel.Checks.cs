using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

public sealed partial class ThermalModel
{
    private static void RequireNumbers(Machine machine, Part? part)
    {
        var scale = machine.Scale;
        Require(scale.AlphaMicrometresPerMetreKelvin, $"machine {machine.Id}: the expansion coefficient of its scale");
        RequireUncertainty(scale.UAlphaMicrometresPerMetreKelvin, $"machine {machine.Id}: the expansion coefficient of its scale");
        if (scale.Screw is { } screw)
        {
            Require(screw.FixedBearingMillimetres, $"machine {machine.Id}: the place of the fixed bearing");
            Require(screw.RiseKelvins, $"machine {machine.Id}: the rise of its screw");
        }

        foreach (var mode in machine.Drift)
        {
            Require(mode.SensitivityMicrometresPerKelvin, $"machine {machine.Id}: the sensitivity of a drift mode");
            RequireUncertainty(mode.RelativeUncertainty, $"machine {machine.Id}: the sensitivity of a drift mode");
        }

        foreach (var mode in machine.Spindle)
        {
            Require(mode.FullMicrometres, $"machine {machine.Id}: the growth of its spindle");
        }

        if (part is not null)
        {
            Require(part.Material.AlphaMicrometresPerMetreKelvin, $"part {part.Number}: the expansion coefficient of {part.Material.Id}");
            RequireUncertainty(part.Material.UAlphaMicrometresPerMetreKelvin, $"part {part.Number}: the expansion coefficient of {part.Material.Id}");
        }
    }

    private static void Require(double value, string what)
    {
        if (!double.IsFinite(value))
        {
            throw new ArgumentOutOfRangeException(what, value, $"{char.ToUpperInvariant(what[0])}{what[1..]} is not a number; the plant file must state it.");
        }
    }

    private static void RequireUncertainty(double value, string what)
    {
        if (!(value >= 0) || !double.IsFinite(value))
        {
            throw new ArgumentOutOfRangeException(what, value, $"The standard uncertainty of {what} must be a number, zero or more.");
        }
    }

    private static void RequireFinite(double value, string what)
    {
        if (!double.IsFinite(value))
        {
            throw new ArgumentOutOfRangeException(what, value, $"The value of {what} is not a number; the caller must say that it is not known.");
        }
    }
}
