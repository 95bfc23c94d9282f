namespace ClimateGuard.Simulator;

/// <summary>What touches a part: the film coefficient in W/(m² K) and the temperature behind it in °C.</summary>
public readonly record struct Surroundings(double Film, double SinkCelsius)
{
    private const double WetToDryFilm = 2.9;

    /// <summary>Fluid over a share of the surface, air over the rest.</summary>
    public static Surroundings Blend(double share, double fluidFilm, double fluidCelsius, double airFilm, double airCelsius)
    {
        var fluid = share * fluidFilm;
        var air = (1 - share) * airFilm;
        return new Surroundings(fluid + air, ((fluid * fluidCelsius) + (air * airCelsius)) / (fluid + air));
    }

    /// <summary>A surface that is wet over a share: there it gives heat to the wet-bulb temperature, about three times as fast.</summary>
    public static Surroundings Evaporating(double wetShare, double airFilm, double airCelsius, double wetBulbCelsius) =>
        Blend(wetShare, WetToDryFilm * airFilm, wetBulbCelsius, airFilm, airCelsius);
}
