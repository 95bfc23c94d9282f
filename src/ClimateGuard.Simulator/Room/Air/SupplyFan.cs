namespace ClimateGuard.Simulator;

/// <summary>The fan with its belt and its filter: what of full air flow passes.</summary>
public sealed class SupplyFan
{
    private const double CleanFilterPascals = 120.0;
    private const double HeatKelvinAtFullSpeed = 0.8;

    /// <summary>Whether the motor is switched on.</summary>
    public bool On { get; internal set; } = true;

    /// <summary>Whether it has power.</summary>
    public bool Powered { get; internal set; } = true;

    /// <summary>Speed of the motor when it runs, as a share of full speed; the energy programme lowers it.</summary>
    public double SpeedCommand { get; internal set; } = 1.0;

    /// <summary>What the belt passes on, 0 (torn) to 1.</summary>
    public double BeltShare { get; internal set; } = 1.0;

    /// <summary>What the filter lets through of full flow, in (0, 1].</summary>
    public double FilterShare { get; internal set; } = 1.0;

    /// <summary>Whether the motor runs: this, and not the air, is what the status contact sees.</summary>
    public bool Running => On && Powered;

    /// <summary>Speed of the motor, 0 to 1.</summary>
    public double Speed => Running ? SpeedCommand : 0;

    /// <summary>Air flow as a share of full flow.</summary>
    public double FlowShare => Speed * BeltShare * FilterShare;

    /// <summary>What the fan warms the air by, in K.</summary>
    public double HeatKelvin => HeatKelvinAtFullSpeed * Speed * Speed;

    /// <summary>Pressure drop over the filter, in Pa: a clean one has 120 Pa at full flow.</summary>
    public double FilterPascals => CleanFilterPascals * (1.0 + (4.0 * (1.0 - FilterShare))) * Math.Pow(Speed * BeltShare, 2);

    internal static double DesignHeatKelvin => HeatKelvinAtFullSpeed;
}
