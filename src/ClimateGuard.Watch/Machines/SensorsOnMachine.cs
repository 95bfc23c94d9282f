using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Watch;

/// <summary>Takes the sensors on a machine's scale and part into its thermal state.</summary>
internal static class SensorsOnMachine
{
    // A covered sensor on a part reads 0.02 to 0.05 of the way to what passes over it (domain figures, common practice, no source).
    private const double PulledByMedium = 0.035;

    // One sensor's offset does not average out: below this share of its uncertainty more of its readings say nothing new.
    private const double NothingNew = 0.8;

    /// <summary>The state with what the sensors say taken in.</summary>
    /// <param name="state">The state; it is not changed.</param>
    /// <param name="model">The model of the machine with its part.</param>
    /// <param name="isOwn">Nobody else holds its temperatures yet, so they may be changed in place.</param>
    public static MachineState Observe(MachineState state, ThermalModel model, bool isOwn)
    {
        var climate = state.Climate;
        var scaleSays = !double.IsNaN(climate.ScaleCelsius) && IsNews(
            climate.ScaleCelsius - state.Thermal![StateLayout.Scale], state.Thermal.StandardDeviation(StateLayout.Scale), climate.ScaleUncertaintyKelvins);
        var partUncertainty = PartUncertainty(state);
        var partSays = state.JobIsIn && !double.IsNaN(climate.PartCelsius) && PartSays(model, state.Thermal!, climate.PartCelsius, partUncertainty);
        if (!scaleSays && !partSays)
        {
            return state;
        }

        var thermal = isOwn ? state.Thermal! : state.Thermal!.Copy();
        if (scaleSays)
        {
            model.ObserveScale(thermal, new Celsius(climate.ScaleCelsius), new Kelvins(climate.ScaleUncertaintyKelvins));
        }

        if (partSays)
        {
            model.ObserveSensorOnPart(thermal, new Celsius(climate.PartCelsius), new Kelvins(partUncertainty));
        }

        return isOwn ? state : state with { Thermal = thermal };
    }

    private static bool PartSays(ThermalModel model, ThermalState thermal, double celsius, double uncertainty)
    {
        var (expected, known) = model.SensorOnPart(thermal);
        return IsNews(celsius - expected.Value, known.Value, uncertainty);
    }

    private static double PartUncertainty(MachineState state)
    {
        var climate = state.Climate;
        var medium = state.CoolantOn && !double.IsNaN(climate.CoolantCelsius) ? climate.CoolantCelsius : climate.AirCelsius;
        return double.Hypot(climate.PartUncertaintyKelvins, PulledByMedium * (medium - climate.PartCelsius));
    }

    private static bool IsNews(double departure, double known, double sensor) =>
        known > NothingNew * sensor || Math.Abs(departure) > 2 * sensor;
}
