using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Watch;

/// <summary>How warm a part and its pallet are when they come onto a machine, and how well that is known.</summary>
internal static class StartTemperature
{
    public static void Load(ThermalModel model, ThermalState thermal, JobLoaded job, in LocalClimate climate, DateTimeOffset now)
    {
        var soaking = model.Settled(new Surroundings(climate.AirCelsius));
        var (start, uncertainty) = AtEntry(model.Noise, job, climate);
        model.LoadPart(soaking, start, uncertainty);
        var fromStore = job.Pallet is not null && !double.IsNaN(climate.StorageCelsius);
        if (fromStore)
        {
            ThermalModel.LoadPallet(soaking, new(climate.StorageCelsius), new(model.Noise.OriginKelvins));
        }

        var entered = job.EnteredCell ?? job.Time;
        if (entered < now)
        {
            model.Advance(soaking, new Surroundings(climate.AirCelsius), now - entered);
        }

        model.LoadPart(thermal, model.PartTemperature(soaking), model.PartUncertainty(soaking));
        if (fromStore)
        {
            ThermalModel.LoadPallet(thermal, new(soaking[StateLayout.Fixture]), new(soaking.StandardDeviation(StateLayout.Fixture)));
        }
    }

    private static (Celsius Start, Kelvins Uncertainty) AtEntry(ThermalNoise noise, JobLoaded job, in LocalClimate climate)
    {
        if (job.Start is { } measured)
        {
            return (measured, job.StartUncertainty ?? new Kelvins(noise.StartKelvins));
        }

        var origin = Origin.Of(job.Origin);
        var known = origin.Kind switch
        {
            OriginKind.Machine => climate.OriginCoolantCelsius ?? double.NaN,
            OriginKind.Wash => noise.WashCelsius,
            OriginKind.Hall => climate.HallCelsius,
            _ => climate.StorageCelsius,
        };
        if (!double.IsNaN(known))
        {
            // Blanks for a machine with a store are taken to wait there unless somebody says otherwise.
            return (new(known), (origin.Kind == OriginKind.Unknown ? new Origin(OriginKind.Storage) : origin).Uncertainty(noise));
        }

        return (new(double.IsNaN(climate.HallCelsius) ? climate.AirCelsius : climate.HallCelsius), new(noise.UnknownOriginKelvins));
    }
}
