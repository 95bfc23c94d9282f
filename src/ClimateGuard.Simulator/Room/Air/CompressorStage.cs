namespace ClimateGuard.Simulator;

/// <summary>A direct-expansion stage: on or off by a thermostat, weaker with little refrigerant, a dirty condenser or ice on its coil.</summary>
public sealed class CompressorStage
{
    internal const double HealthyDifferentialKelvin = 0.8;
    private const double LeastSeconds = 240.0;
    private const double RatedAmperes = 14.0;
    private const double MeltPerHour = 2.0;
    private const double CondenserRatedCelsius = 15.0;
    private const double CondenserSpanKelvin = 25.0;
    private double secondsInState = LeastSeconds;
    private double outdoorCelsius = CondenserRatedCelsius;

    /// <summary>Whether it runs.</summary>
    public bool Running { get; private set; }

    /// <summary>Starts since the beginning.</summary>
    public int Starts { get; private set; }

    /// <summary>Dead band of its thermostat, in K.</summary>
    public double DifferentialKelvin { get; internal set; } = HealthyDifferentialKelvin;

    /// <summary>Refrigerant charge as a share of the right one.</summary>
    public double ChargeShare { get; internal set; } = 1.0;

    /// <summary>Capacity lost at 40 °C outdoors because the condenser is dirty or its fan stands, as a share.</summary>
    public double CondenserFouling { get; internal set; }

    /// <summary>How fast ice grows on the coil while it runs, as a share of the coil per hour; 0 is a healthy coil.</summary>
    public double IcePerHour { get; internal set; }

    /// <summary>Ice on the coil, as a share of it.</summary>
    public double IceShare { get; private set; }

    /// <summary>After how long a low-pressure switch cuts out; zero is a healthy one.</summary>
    public TimeSpan CutsOutAfter { get; internal set; }

    /// <summary>Cooling it gives as a share of rated; 0 when off.</summary>
    public double CapacityShare => Running ? ChargeShare * (1.0 - IceShare) * CondenserShare : 0;

    /// <summary>Current drawn, in A; a hot condenser draws more.</summary>
    public double Amperes => Running ? RatedAmperes * (1.0 + (0.01 * (outdoorCelsius - 25.0)) + (0.3 * CondenserFouling)) : 0;

    private double CondenserShare =>
        Math.Clamp(1.0 - (CondenserFouling * (outdoorCelsius - CondenserRatedCelsius) / CondenserSpanKelvin), 0.1, 1.0);

    internal void Advance(double airCelsius, double setpointCelsius, double outdoor, bool powered, double seconds)
    {
        outdoorCelsius = outdoor;
        secondsInState += seconds;
        var cutOut = Running && CutsOutAfter > TimeSpan.Zero && secondsInState >= CutsOutAfter.TotalSeconds;
        if (!powered || cutOut) Switch(false);
        else if (secondsInState >= LeastSeconds)
        {
            if (airCelsius > setpointCelsius + (DifferentialKelvin / 2)) Switch(true);
            else if (airCelsius < setpointCelsius - (DifferentialKelvin / 2)) Switch(false);
        }

        var growth = Running ? IcePerHour : -MeltPerHour;
        IceShare = Math.Clamp(IceShare + (growth * seconds / 3600.0), 0, 0.9);
    }

    private void Switch(bool on)
    {
        if (Running == on) return;
        Running = on;
        secondsInState = 0;
        if (on) Starts++;
    }
}
