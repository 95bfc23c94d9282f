using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Watch;

/// <summary>How warm a part is when it comes onto a machine, and how well that is known.</summary>
internal static class StartTemperature
{
    public static (Celsius Start, Kelvins Uncertainty) Of(ThermalModel model, JobLoaded job, in LocalClimate climate, DateTimeOffset now)
    {
        var (start, uncertainty) = AtEntry(model.Noise, job, climate);
        var since = (job.EnteredCell ?? job.Time) is { } entered && entered < now ? now - entered : TimeSpan.Zero;
        if (since == TimeSpan.Zero)
        {
            return (start, uncertainty);
        }

        var soaking = model.Settled(new Surroundings(climate.AirCelsius));
        model.LoadPart(soaking, start, uncertainty);
        model.Advance(soaking, new Surroundings(climate.AirCelsius), since);
        return (model.PartTemperature(soaking), model.PartUncertainty(soaking));
    }

    private static (Celsius Start, Kelvins Uncertainty) AtEntry(ThermalNoise noise, JobLoaded job, in LocalClimate climate)
    {
        if (job.Start is { } measured)
        {
            return (measured, job.StartUncertainty ?? new Kelvins(noise.StartKelvins));
        }

        if (!double.IsNaN(climate.StorageCelsius))
        {
            return (new(climate.StorageCelsius), new(noise.OriginKelvins));
        }

        return (new(double.IsNaN(climate.HallCelsius) ? climate.AirCelsius : climate.HallCelsius), new(noise.UnknownOriginKelvins));
    }
}
