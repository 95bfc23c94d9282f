using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>The thermal model of one machine with one part: the one entry for every question about temperature.</summary>
/// <remarks>
/// A Kalman filter (Kalman 1960) over the numbers of <see cref="StateLayout"/>. Each step is the exact solution for surroundings that are
/// constant over the step, so one long step equals many short ones; there is no stability limit. Immutable, safe across threads; the states
/// it is given are not.
/// </remarks>
public sealed partial class ThermalModel
{
    private readonly double referenceCelsius;
    private readonly StateStep step;

    /// <summary>Builds the model of a machine with a part, or with none.</summary>
    /// <param name="machine">The machine.</param>
    /// <param name="part">The part, or null when nothing is loaded.</param>
    /// <param name="noise">Uncertainties; null for the defaults.</param>
    /// <param name="reference">The temperature at which lengths are stated; null for 20 °C (ISO 1).</param>
    /// <param name="partSensorLag">Time constant of a sensor that stays on the part, for <see cref="ObserveSensorOnPart"/>; zero when it follows at once.</param>
    /// <exception cref="ArgumentOutOfRangeException">A property of part or machine is out of range, or not a number.</exception>
    public ThermalModel(Machine machine, Part? part, ThermalNoise? noise = null, Celsius? reference = null, TimeSpan partSensorLag = default)
    {
        ArgumentNullException.ThrowIfNull(machine);
        ArgumentOutOfRangeException.ThrowIfLessThan(partSensorLag, TimeSpan.Zero);
        RequireNumbers(machine, part);
        Machine = machine;
        PartSensorLag = partSensorLag;
        Part = part;
        Noise = noise ?? new ThermalNoise();
        Layout = new StateLayout(machine);
        Response = part is null ? null : new PartResponse(part, Noise.WetShare * DryingFilm.MeanShare(Noise));
        referenceCelsius = (reference ?? Celsius.Reference).Value;
        step = new StateStep(machine, part, Response, Layout, Noise, partSensorLag, referenceCelsius);
        Effects = part is null ? [] : [.. part.Features.Select(feature => new FeatureModel(feature, machine, part.Material, Layout, referenceCelsius))];
    }

    /// <summary>The machine.</summary>
    public Machine Machine { get; }

    /// <summary>The part, or null.</summary>
    public Part? Part { get; }

    /// <summary>The uncertainties in force.</summary>
    public ThermalNoise Noise { get; }

    /// <summary>The meaning of the numbers of a state.</summary>
    public StateLayout Layout { get; }

    /// <summary>How fast the part follows each medium, or null without a part.</summary>
    public PartResponse? Response { get; }

    /// <summary>The features of the part, in the order of the plant file.</summary>
    public IReadOnlyList<FeatureModel> Effects { get; }

    /// <summary>Time constant of a sensor that stays on the part.</summary>
    public TimeSpan PartSensorLag { get; }

    internal double ReferenceCelsius => referenceCelsius;

    internal StateStep Steps => step;

    /// <summary>Moves a state forward in time, in place and without allocation.</summary>
    /// <param name="state">A state of this machine.</param>
    /// <param name="surroundings">What surrounds it, constant over the step; the temperatures it uses are finite.</param>
    /// <param name="elapsed">The step; zero changes nothing.</param>
    /// <exception cref="ArgumentOutOfRangeException">The step is negative, or a temperature in use is not finite.</exception>
    public void Advance(ThermalState state, in Surroundings surroundings, TimeSpan elapsed)
    {
        ArgumentNullException.ThrowIfNull(state);
        ArgumentOutOfRangeException.ThrowIfLessThan(elapsed, TimeSpan.Zero);
        if (elapsed == TimeSpan.Zero || surroundings.Medium == Medium.Still)
        {
            return;
        }

        RequireFinite(surroundings.AirCelsius, "air");
        RequireFinite(surroundings.SinkCelsius, "the medium over the part");
        EnterMedium(state, surroundings.Medium);
        RequireFinite(surroundings.SpindleLoad, "the load of the spindle");
        if (surroundings.Medium is Medium.Mist or Medium.Flood or Medium.Submerged)
        {
            // Wetted anew: what was learned of how it dried before says nothing of the next time.
            state.Reset(StateLayout.WetShare, Noise.WetShare, Square(Noise.WetShareUncertainty));
        }

        step.Apply(state, surroundings, elapsed.TotalSeconds);
        step.Wander(state, surroundings, elapsed.TotalSeconds);
    }

    /// <summary>
    /// What was learned of the offsets of air and coolant fades over <see cref="ThermalNoise.OffsetMemory"/>, and the spread they have comes back: a part
    /// that does not follow the model must not be blamed on the air for weeks.
    /// </summary>
    /// <param name="state">A state of this machine.</param>
    /// <param name="elapsed">How much time passed; zero changes nothing.</param>
    /// <exception cref="ArgumentOutOfRangeException">The time is negative.</exception>
    public void Forget(ThermalState state, TimeSpan elapsed)
    {
        ArgumentNullException.ThrowIfNull(state);
        ArgumentOutOfRangeException.ThrowIfLessThan(elapsed, TimeSpan.Zero);
        var keep = Math.Exp(-(elapsed / Noise.OffsetMemory));
        state.Fade(StateLayout.AirOffset, keep, Square(Noise.AirOffsetKelvins));
        state.Fade(StateLayout.CoolantOffset, keep, Square(Noise.CoolantOffsetKelvins));
    }

    /// <summary>The datum was probed and the work offset set: drift in these axes is zero from here on, and known to be.</summary>
    /// <param name="state">A state of this machine.</param>
    /// <param name="axes">The axes that were set.</param>
    public void ProbeDatum(ThermalState state, IReadOnlyList<Axis> axes)
    {
        ArgumentNullException.ThrowIfNull(state);
        ArgumentNullException.ThrowIfNull(axes);
        foreach (var axis in axes)
        {
            CopyMovesIntoReference(state, axis);
        }
    }

    /// <summary>Mean temperature of the part, in °C.</summary>
    public Celsius PartTemperature(ThermalState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        var pair = NodesOf(state);
        return new((pair.FirstWeight * state[StateLayout.PartFirst]) + (pair.SecondWeight * state[StateLayout.PartSecond]));
    }

    /// <summary>Temperature of the part's surface, in °C: what a thermometer on it shows.</summary>
    public Celsius SurfaceTemperature(ThermalState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        var pair = NodesOf(state);
        return new((pair.SurfaceFirstWeight * state[StateLayout.PartFirst]) + (pair.SurfaceSecondWeight * state[StateLayout.PartSecond]));
    }

    /// <summary>Standard uncertainty of the mean temperature of the part.</summary>
    public Kelvins PartUncertainty(ThermalState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        var pair = NodesOf(state);
        Span<double> gradient = stackalloc double[state.Count];
        gradient.Clear();
        gradient[StateLayout.PartFirst] = pair.FirstWeight;
        gradient[StateLayout.PartSecond] = pair.SecondWeight;
        return new(Math.Sqrt(state.Variance(gradient)));
    }

    /// <summary>Drift of the tool against the work since the datum was probed, in µm.</summary>
    public double DriftMicrometres(ThermalState state, Axis axis)
    {
        ArgumentNullException.ThrowIfNull(state);
        var sum = -state[Layout.Reference(axis)];
        var moves = Layout.Moves(axis);
        for (var i = 0; i < moves.Length; i++)
        {
            sum += moves[i] * state[i];
        }

        return sum;
    }

    /// <summary>Standard uncertainty of the drift since the datum was probed, in µm.</summary>
    public double DriftUncertainty(ThermalState state, Axis axis)
    {
        ArgumentNullException.ThrowIfNull(state);
        Span<double> gradient = stackalloc double[state.Count];
        Layout.Moves(axis).CopyTo(gradient);
        gradient[Layout.Reference(axis)] = -1;
        return Math.Sqrt(state.Variance(gradient));
    }

    /// <summary>What a sensor that stays on the part should read, and how uncertain that is.</summary>
    public (Celsius Value, Kelvins Uncertainty) SensorOnPart(ThermalState state) => PartSensorLag == TimeSpan.Zero
        ? (SurfaceTemperature(state), PartUncertainty(state))
        : (new(state[StateLayout.PartSensor]), new(state.StandardDeviation(StateLayout.PartSensor)));

    internal NodePair NodesOf(ThermalState state) => Response?[state.PartMedium] ?? new NodePair(1, double.PositiveInfinity, double.PositiveInfinity);

    private static double Square(double value) => value * value;
}
