using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>Which number of a <see cref="ThermalState"/> means what.</summary>
/// <remarks>
/// In order: the two nodes of the part, scale, fixture (°C); the offset of the air sensors and of the coolant sensor (K); the logarithmic error of the part's time
/// constant; then for each drift mode its displacement (µm) and the relative error of its sensitivity; then for X, Y, Z what the modes
/// summed to when the datum was probed (µm). Immutable.
/// </remarks>
public sealed class StateLayout
{
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

    internal const int FirstMode = 7;

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
}

/// <summary>One first-order mode: dm/dt = (gain·(1 + r)·drive − m)/τ.</summary>
internal sealed record ModeDynamics(Axis Axis, double GainMicrometres, double TimeConstantSeconds, double RelativeUncertainty, bool DrivenBySpindle);
