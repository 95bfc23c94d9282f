using System.Globalization;

namespace ClimateGuard.Plant;

/// <summary>Makes a sensor from a checked draft.</summary>
internal static class SensorBuilder
{
    public static Sensor Build(SensorDraft sensor, string path, DefaultsTaken taken)
    {
        var quantity = taken.Or(sensor.Quantity, $"{path}/quantity", SensorQuantity.Temperature);
        var place = taken.Or(sensor.Place, $"{path}/place", SensorDefaults.Place(quantity));
        var (low, high) = Plausible(sensor, path, quantity, place, taken);
        return new Sensor
        {
            Id = CellBuilder.Stated(sensor.Id, $"{path}/id"),
            Quantity = quantity,
            Place = place,
            Zone = sensor.Zone,
            Machine = sensor.Machine,
            AirHandler = sensor.AirHandler,
            HeightMetres = sensor.HeightM,
            Unit = taken.Or(sensor.Unit, $"{path}/unit", SensorDefaults.Unit(quantity)),
            Topic = sensor.Topic,
            Period = TimeSpan.FromSeconds(taken.Or(sensor.PeriodS, $"{path}/periodS", 10.0)),
            ReportsOnChange = taken.Or(sensor.ReportsOnChange, $"{path}/reportsOnChange", quantity is SensorQuantity.Contact),
            Heartbeat = TimeSpan.FromSeconds(taken.Or(sensor.HeartbeatS, $"{path}/heartbeatS", 3600.0)),
            Device = taken.Or(sensor.Device, $"{path}/device", SensorDevice.Generic),
            LoopRange = sensor.LoopRange is [{ } at4, { } at20] ? (at4, at20) : null,
            Resolution = sensor.Resolution,
            Uncertainty = taken.Or(sensor.UncertaintyK, $"{path}/uncertaintyK", SensorDefaults.Uncertainty(quantity)),
            TimeConstant = TimeSpan.FromSeconds(
                taken.Or(sensor.TimeConstantS, $"{path}/timeConstantS", SensorDefaults.TimeConstant(quantity).TotalSeconds)),
            PlausibleLow = low,
            PlausibleHigh = high,
            Calibrations = [.. CellBuilder.Each(sensor.Calibrations, $"{path}/calibrations", taken, (c, at) => Calibration(c, at, taken))
                .OrderBy(c => c.From)],
        };
    }

    private static (double Low, double High) Plausible(
        SensorDraft sensor, string path, SensorQuantity quantity, SensorPlace place, DefaultsTaken taken)
    {
        if (sensor.Plausible is [{ } low, { } high])
        {
            return (low, high);
        }

        var standIn = SensorDefaults.Plausible(quantity, place);
        taken.Note($"{path}/plausible", string.Create(CultureInfo.InvariantCulture, $"[{standIn.Low}, {standIn.High}]"));
        return standIn;
    }

    private static Calibration Calibration(CalibrationDraft calibration, string path, DefaultsTaken taken)
    {
        var text = CellBuilder.Stated(calibration.From, $"{path}/from");
        return SensorChecks.TryTime(text, out var from)
            ? new Calibration(
                from.ToUniversalTime(),
                CellBuilder.Stated(calibration.Offset, $"{path}/offset"),
                taken.Or(calibration.Uncertainty, $"{path}/uncertainty", 0.05),
                calibration.Instance)
            : throw new ArgumentException(PlantMessages.CalibrationTimeUnreadable(text));
    }
}
