using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Watch;

/// <summary>Reads from the state of a machine what a finish cut is exposed to at that moment.</summary>
/// <remarks>Owned by one caller, not safe across threads.</remarks>
internal sealed class SampleMaker
{
    private readonly Cell cell;
    private readonly Dictionary<(string Machine, string Part), ThermalModel> models = [];

    public SampleMaker(Cell cell) => this.cell = cell;

    /// <summary>The model of a machine with what is loaded on it, or null when nothing known is.</summary>
    public ThermalModel? ModelOf(MachineState state)
    {
        if (state.Thermal is null || state.Job is not { IsUnload: false } job || cell.FindPart(job.Part) is not { } part || cell.FindMachine(state.Machine) is not { } machine)
        {
            return null;
        }

        if (!models.TryGetValue((machine.Id, part.Number), out var model))
        {
            models.Add((machine.Id, part.Number), model = new ThermalModel(machine, part, reference: cell.Description.Reference));
        }

        return model;
    }

    /// <summary>One sample.</summary>
    /// <param name="state">The machine.</param>
    /// <param name="time">The moment.</param>
    /// <param name="gradientKelvins">How much warmer the air is under the roof, in K.</param>
    /// <param name="atCutStart">Drift when the cut began: what lies between two cuts counts from there; null before the cut.</param>
    public ExposureSample Of(MachineState state, DateTimeOffset time, double gradientKelvins, AxisDrift? atCutStart)
    {
        var climate = state.Climate;
        var coolant = state.CoolantOn ? climate.CoolantCelsius : double.NaN;
        if (ModelOf(state) is not { } model || !state.JobIsIn)
        {
            return new ExposureSample(
                time, false, climate.AirCelsius, coolant, double.NaN, double.NaN, double.NaN, double.NaN, new(double.NaN, double.NaN, double.NaN), state.SpindleLoad,
                double.NaN, []);
        }

        var (thermal, machine, part) = (state.Thermal!, model.Machine, model.Part!);
        var drift = new AxisDrift(model.DriftMicrometres(thermal, Axis.X), model.DriftMicrometres(thermal, Axis.Y), model.DriftMicrometres(thermal, Axis.Z));
        var (partCelsius, scaleCelsius) = (model.PartTemperature(thermal).Value, thermal[StateLayout.Scale]);
        var reference = cell.Description.Reference.Value;
        var eps = (machine.Scale.Compensated ? 0 : machine.Scale.AlphaMicrometresPerMetreKelvin * (scaleCelsius - reference))
            - (machine.PartCompensated ? 0 : part.Material.AlphaMicrometresPerMetreKelvin * (partCelsius - reference));
        return new ExposureSample(
            time, climate.AirMissingBecause is null && !Around.CoolantIsMissing(state), climate.AirCelsius, coolant, partCelsius, model.PartUncertainty(thermal).Value,
            scaleCelsius, eps, drift, state.SpindleLoad, gradientKelvins, [.. model.Effects.Select(effect => Now(model, effect, thermal, drift, atCutStart))]);
    }

    private static EffectNow Now(ThermalModel model, FeatureModel effect, ThermalState thermal, AxisDrift drift, AxisDrift? atCutStart)
    {
        var at = effect.At(model, thermal);
        var since = effect.Feature is DistanceFeature distance && atCutStart is { } start ? drift.Along(distance.Axis) - start.Along(distance.Axis) : 0;
        return new EffectNow(at.EffectMicrometres + since, at.UMicrometres);
    }
}
