using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

public sealed partial class ThermalModel
{
    // A sensor that was just put on the part comes from elsewhere: what it reads first says little about the part.
    private const double NewSensorKelvins = 3;

    /// <summary>A state in which everything has long been at the temperature of the air.</summary>
    /// <remarks>What the air sensors get wrong is then wrong alike in scale, fixture, part and structure, and cancels where they act against each other.</remarks>
    /// <param name="surroundings">The surroundings; the air is finite.</param>
    /// <exception cref="ArgumentOutOfRangeException">The air temperature is not finite.</exception>
    public ThermalState Settled(in Surroundings surroundings)
    {
        RequireFinite(surroundings.AirCelsius, "air");
        RequireFinite(surroundings.SpindleLoad, "the load of the spindle");
        var state = new ThermalState(Layout.Count);
        state.Reset(StateLayout.AirOffset, 0, Square(Noise.AirOffsetKelvins));
        state.Reset(StateLayout.CoolantOffset, 0, Square(Noise.CoolantOffsetKelvins));
        var rise = (Machine.Scale.Screw?.RiseKelvins ?? 0) * surroundings.SpindleLoad;
        var arrives = step.ScaleOffsetArrives;
        state.Reset(StateLayout.ScaleOffset, 0, step.ScaleOffsetVariance);
        var own = Square(Noise.ScaleKelvins) - (arrives * arrives * step.ScaleOffsetVariance);
        Follow(state, StateLayout.Scale, surroundings.AirCelsius + rise, StateLayout.AirOffset, 1, own);
        AddLink(state, StateLayout.Scale, StateLayout.ScaleOffset, arrives);
        Follow(state, StateLayout.Fixture, surroundings.AirCelsius, StateLayout.AirOffset, 1, Square(Noise.PartKelvins));
        for (var mode = 0; mode < Layout.Modes.Count; mode++)
        {
            var dynamics = Layout.Modes[mode];
            var (m, r) = (StateLayout.Displacement(mode), StateLayout.SensitivityError(mode));
            var drive = dynamics.DrivenBySpindle ? surroundings.SpindleLoad : surroundings.AirCelsius - referenceCelsius;
            state.Reset(r, 0, Square(dynamics.RelativeUncertainty));
            Follow(state, m, dynamics.GainMicrometres * drive, r, dynamics.GainMicrometres * drive, 0);
            AddLink(state, m, StateLayout.AirOffset, dynamics.DrivenBySpindle ? 0 : dynamics.GainMicrometres);
        }

        LoadPart(state, new Celsius(surroundings.AirCelsius), new Kelvins(Noise.PartKelvins));
        foreach (var node in (ReadOnlySpan<int>)[StateLayout.PartFirst, StateLayout.PartSecond])
        {
            AddLink(state, node, StateLayout.AirOffset, 1);
        }

        CopyRow(state, StateLayout.PartFirst, StateLayout.PartSensor);
        ProbeDatum(state, [Axis.X, Axis.Y, Axis.Z]);
        return state;
    }

    /// <summary>A part comes onto the machine with a temperature of its own; its pallet stays as it is.</summary>
    /// <param name="state">A state of this machine.</param>
    /// <param name="start">Its mean temperature, finite.</param>
    /// <param name="uncertainty">Standard uncertainty, zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is not finite or the uncertainty is negative.</exception>
    public void LoadPart(ThermalState state, Celsius start, Kelvins uncertainty)
    {
        ArgumentNullException.ThrowIfNull(state);
        RequireFinite(start.Value, "the part");
        RequireUncertainty(uncertainty.Value, "the part");
        var variance = Square(uncertainty.Value);
        state.Reset(StateLayout.PartFirst, start.Value, variance);
        state.Reset(StateLayout.PartSecond, start.Value, variance);
        state.Covariance[(StateLayout.PartFirst * state.Count) + StateLayout.PartSecond] = variance;
        state.Covariance[(StateLayout.PartSecond * state.Count) + StateLayout.PartFirst] = variance;
        state.Reset(StateLayout.PartSensor, start.Value, variance + Square(NewSensorKelvins));
        state.Reset(StateLayout.LogTimeConstant, 0, Square(Noise.TimeConstantShare));
        state.Reset(StateLayout.WetShare, Noise.WetShare, Square(Noise.WetShareUncertainty));
        state.PartMedium = Medium.Air;
    }

    /// <summary>The pallet or fixture under the part comes from elsewhere, such as a store outside the enclosure, with a temperature of its own.</summary>
    /// <param name="state">A state of this machine.</param>
    /// <param name="start">Its temperature, finite.</param>
    /// <param name="uncertainty">Standard uncertainty, zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is not finite or the uncertainty is negative.</exception>
    public static void LoadPallet(ThermalState state, Celsius start, Kelvins uncertainty)
    {
        ArgumentNullException.ThrowIfNull(state);
        RequireFinite(start.Value, "the pallet");
        RequireUncertainty(uncertainty.Value, "the pallet");
        state.Reset(StateLayout.Fixture, start.Value, Square(uncertainty.Value));
    }

    /// <summary>A number that is a constant, a share of another number, and a noise of its own.</summary>
    private static void Follow(ThermalState state, int number, double mean, int of, double weight, double variance)
    {
        state.Reset(number, mean, variance);
        AddLink(state, number, of, weight);
    }

    /// <summary>Adds weight·(other − its mean) to a number: P ← A·P·Aᵀ with A = I + weight·e·eᵀ.</summary>
    private static void AddLink(ThermalState state, int number, int of, double weight)
    {
        var n = state.Count;
        var p = state.Covariance;
        for (var k = 0; k < n; k++)
        {
            p[(number * n) + k] += weight * p[(of * n) + k];
        }

        for (var k = 0; k < n; k++)
        {
            p[(k * n) + number] += weight * p[(k * n) + of];
        }
    }
}
