namespace ClimateGuard.Simulator;

/// <summary>The published two-zone room of the demo week, in steps of one minute: two nodes per zone, nothing more.</summary>
/// <remarks>
/// It exists to regenerate the expected numbers of the week. The demo runs on the finer <see cref="VirtualRoom"/>.
/// Explicit Euler, because that is how the numbers were made.
/// </remarks>
public sealed class ReferenceRoom
{
    internal const double CouplingWattsPerKelvin = 2000;

    /// <summary>A room that starts at one temperature throughout, in °C.</summary>
    public ReferenceRoom(double startCelsius = 20.0)
    {
        North = new ReferenceZone(6050, startCelsius);
        South = new ReferenceZone(7300, startCelsius);
    }

    /// <summary>The step.</summary>
    public static TimeSpan Step { get; } = TimeSpan.FromMinutes(1);

    /// <summary>The north zone.</summary>
    public ReferenceZone North { get; }

    /// <summary>The south zone, with the roller door.</summary>
    public ReferenceZone South { get; }

    /// <summary>Lets one minute pass.</summary>
    /// <param name="hallCelsius">Air of the hall, in °C.</param>
    public void Advance(double hallCelsius)
    {
        var seconds = Step.TotalSeconds;
        North.Control(seconds);
        South.Control(seconds);
        var north = North.HeatWatts(hallCelsius, South.AirCelsius);
        var south = South.HeatWatts(hallCelsius, North.AirCelsius);
        Move(North, north, seconds);
        Move(South, south, seconds);
    }

    private static void Move(ReferenceZone zone, double airWatts, double seconds)
    {
        var toMass = ReferenceZone.AirToMassWattsPerKelvin * (zone.AirCelsius - zone.MassCelsius);
        zone.AirCelsius += airWatts * seconds / ReferenceZone.AirJoulesPerKelvin;
        zone.MassCelsius += toMass * seconds / ReferenceZone.MassJoulesPerKelvin;
    }
}
