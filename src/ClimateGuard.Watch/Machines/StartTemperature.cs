using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Watch;

/// <summary>How warm a part and its pallet are when they come onto a machine, and how well that is known.</summary>
internal static class StartTemperature
{
    // Within half an hour the air is taken as its mean.
    private static readonly TimeSpan Piece = TimeSpan.FromMinutes(30);

    public static void Load(ThermalModel model, ThermalState thermal, JobLoaded job, MachineState machine)
    {
        var (climate, now) = (machine.Climate, machine.At);
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
            Soak(model, soaking, entered, now, machine);
        }

        model.LoadPart(thermal, model.PartTemperature(soaking), model.PartUncertainty(soaking));
        if (fromStore)
        {
            ThermalModel.LoadPallet(thermal, new(soaking[StateLayout.Fixture]), new(soaking.StandardDeviation(StateLayout.Fixture)));
        }
    }

    /// <summary>The part lies in the air of the enclosure as it was; where that is not remembered, in the first that is, known to a spread of the air.</summary>
    private static void Soak(ThermalModel model, ThermalState soaking, DateTimeOffset entered, DateTimeOffset now, MachineState machine)
    {
        IReadOnlyList<TracePoint> known = [.. machine.Trace.Points.Where(point => !double.IsNaN(point.AirCelsius))];
        var remembered = known.Count == 0 ? now : known[0].Time;
        if (entered < remembered)
        {
            model.Advance(soaking, new Surroundings(known.Count == 0 ? machine.Climate.AirCelsius : known[0].AirCelsius), remembered - entered);
            Doubt(model, soaking, model.Noise.AirForecastKelvins);
        }

        for (var from = entered > remembered ? entered : remembered; from < now; from += Piece)
        {
            var until = from + Piece < now ? from + Piece : now;
            double[] air = [.. known.Where(point => point.Time >= from && point.Time <= until).Select(point => point.AirCelsius)];
            model.Advance(soaking, new Surroundings(air.Length == 0 ? machine.Climate.AirCelsius : air.Average()), until - from);
        }

        // It lay somewhere in the enclosure, not at the machine.
        var soaked = 1 - Math.Exp(-((now - entered) / model.Response!.TimeConstant(Medium.Air)));
        Doubt(model, soaking, model.Noise.PlaceKelvins * soaked);
    }

    private static void Doubt(ThermalModel model, ThermalState soaking, double kelvins) => model.LoadPart(
        soaking, model.PartTemperature(soaking), new Kelvins(double.Hypot(model.PartUncertainty(soaking).Value, kelvins)));

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
            return (new(known), origin.Uncertainty(noise));
        }

        return (new(double.IsNaN(climate.HallCelsius) ? climate.AirCelsius : climate.HallCelsius), new(noise.UnknownOriginKelvins));
    }
}
