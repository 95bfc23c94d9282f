using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>Which number of a <see cref="ThermalState"/> means what.</summary>
/// <remarks>
/// In order: the two nodes of the part, scale, pallet and fixture (°C); the offset of the air sensors and of the coolant sensor (K); the
/// logarithmic error of the part's time constant; what a sensor that stays on the part reads (°C); how much of a wet part is wet; how
/// much warmer it is around the scale (K); then for each
/// drift mode its displacement (µm) and the relative error of its sensitivity; then for X, Y, Z what moved the tool when the datum was probed (µm). Immutable.
/// </remarks>
public sealed class StateLayout
{
    private readonly double[][] moves;

    /// <summary>First node of the part, in °C.</summary>
    public const int PartFirst = 0;

    /// <summary>Second node of the part, in °C.</summary>
    public const int PartSecond = 1;

    /// <summary>Temperature of the scale, in °C.</summary>
    public const int Scale = 2;

    /// <summary>Temperature of pallet and fixture, in °C.</summary>
    public const int Fixture = 3;

    /// <summary>True local air minus what the air sensors say, in K.</summary>
    public const int AirOffset = 4;

    /// <summary>True coolant minus what its sensor says, in K.</summary>
    public const int CoolantOffset = 5;

    /// <summary>Natural logarithm of true over assumed time constant of the part.</summary>
    public const int LogTimeConstant = 6;

    /// <summary>What a sensor that stays on the part reads, in °C; it lags behind the part.</summary>
    public const int PartSensor = 7;

    /// <summary>Which share of the surface is wet once the coolant stopped; counts only while the part is <see cref="Medium.Wet"/>.</summary>
    public const int WetShare = 8;

    /// <summary>How much warmer the surroundings of the scale are than the local air, in K; it changes over a shift, not over a cut.</summary>
    public const int ScaleOffset = 9;

    internal const int FirstMode = 10;

    /// <summary>Lays out the state of a machine.</summary>
    /// <param name="machine">The machine.</param>
    public StateLayout(Machine machine)
    {
        ArgumentNullException.ThrowIfNull(machine);
        Modes =
        [
            .. machine.Drift.Select(m => new ModeDynamics(
                m.Axis, m.SensitivityMicrometresPerKelvin, m.TimeConstant.TotalSeconds, m.RelativeUncertainty, DrivenBySpindle: false)),
            .. machine.Spindle.Select(m => new ModeDynamics(
                m.Axis, m.FullMicrometres, m.TimeConstant.TotalSeconds, DefaultSpindleUncertainty, DrivenBySpindle: true)),
        ];
        FirstReference = FirstMode + (2 * Modes.Count);
        Count = FirstReference + 3;
        moves = [.. Enum.GetValues<Axis>().Select(axis => MovesAlong(machine, axis))];
    }

    /// <summary>Relative uncertainty of a spindle's growth when nobody measured it (common practice, no source).</summary>
    public const double DefaultSpindleUncertainty = 0.3;

    /// <summary>How many numbers the state has.</summary>
    public int Count { get; }

    internal IReadOnlyList<ModeDynamics> Modes { get; }

    internal int FirstReference { get; }

    internal static int Displacement(int mode) => FirstMode + (2 * mode);

    internal static int SensitivityError(int mode) => FirstMode + (2 * mode) + 1;

    internal int Reference(Axis axis) => FirstReference + (int)axis;

    /// <summary>What moves the tool along an axis, as weights of the numbers of a state; the drift is that less what it was at the probing.</summary>
    internal ReadOnlySpan<double> Moves(Axis axis) => moves[(int)axis];

    private double[] MovesAlong(Machine machine, Axis axis)
    {
        var weights = new double[Count];
        for (var mode = 0; mode < Modes.Count; mode++)
        {
            weights[Displacement(mode)] = Modes[mode].Axis == axis ? 1 : 0;
        }

        // The screw grows away from its fixed bearing at f: the tool at the datum moves by α·(0 − f) for each kelvin of the screw.
        if (machine.Scale is { Compensated: false, Screw: { } screw } && screw.Axis == axis)
        {
            weights[Scale] = -screw.FixedBearingMillimetres * 1e-3 * machine.Scale.AlphaMicrometresPerMetreKelvin;
        }

        return weights;
    }
}

/// <summary>One first-order mode: dm/dt = (gain·(1 + r)·drive − m)/τ.</summary>
internal sealed record ModeDynamics(Axis Axis, double GainMicrometres, double TimeConstantSeconds, double RelativeUncertainty, bool DrivenBySpindle);
