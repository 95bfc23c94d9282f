using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Published;

/// <summary>
/// ISO/TR 16015 and ASME B89.6.2, nominal differential expansion (formulas from memory, numbers recomputed, relative 1e-12), through the
/// model of a feature. The effect is the negative of the nominal differential expansion: the part is cut warm and judged at 20 °C.
/// </summary>
public sealed class IsoTr16015_ThroughTheModel
{
    [Theory]
    [InlineData(500, 23.6, 23.0, 0, 23.0, 35.4)] // a: L mm, αp, °C, αs, °C, NDE µm
    [InlineData(500, 23.6, 23.0, 11.5, 23.0, 18.15)] // b
    [InlineData(1000, 11.5, 21.5, 8.0, 21.5, 5.25)] // e
    [InlineData(300, 8.6, 18.0, 0.55, 18.0, -4.83)] // f
    [InlineData(1000, 11.5, 21.0, 0, 20.0, 11.5)] // k
    public void Differential_expansion(double length, double part, double partCelsius, double scale, double scaleCelsius, double nde)
    {
        var model = Model(length, part, 0.5, scale);
        Within.Relative(-nde, model.Effects[0].At(model, Some.StateOf(model, partCelsius, scaleCelsius)).EffectMicrometres, 1e-12);
    }

    [Fact]
    public void Compensation_in_the_control_takes_its_side_away()
    {
        var model = Model(500, 23.6, 0.5, 11.5);
        var scaleDone = new ThermalModel(model.Machine with { Scale = model.Machine.Scale with { Compensated = true } }, model.Part);
        var partDone = new ThermalModel(model.Machine with { PartCompensated = true }, model.Part);
        Within.Relative(-35.4, scaleDone.Effects[0].At(scaleDone, Some.StateOf(scaleDone, 23, 23)).EffectMicrometres, 1e-12); // a
        Within.Relative(17.25, partDone.Effects[0].At(partDone, Some.StateOf(partDone, 23, 23)).EffectMicrometres, 1e-12); // b, scale
    }

    [Fact]
    public void The_uncertainty_from_the_coefficient_and_from_the_temperature()
    {
        // c and d: u(α) 1.2 gives 1.8 µm, u(T) 0.1 K 1.18 µm. The product u(α)·u(T)·L of 0.06 µm is in the share of the coefficient.
        var model = Model(500, 23.6, 1.2, 0);
        var state = Some.StateOf(model, 23, 20);
        var shares = model.Effects[0].UncertaintyAt(model, state).ToDictionary(share => share.Label, share => share.Micrometres);
        Within.Absolute(Math.Sqrt((1.8 * 1.8) + (0.06 * 0.06)), shares["expansion of the part"], 1e-9);
        Within.Absolute(1.18, shares["temperature of part and scale"], 1e-9);
    }

    private static ThermalModel Model(double length, double part, double uAlpha, double scale) => new(
        Some.Machine(scale),
        Some.Disc(new SizeFeature { Id = "length", ToleranceMillimetres = 1, Budget = BudgetRule.Absolute(1), NominalMillimetres = length }) with
        {
            Material = Some.Steel(part, uAlpha),
        });
}
