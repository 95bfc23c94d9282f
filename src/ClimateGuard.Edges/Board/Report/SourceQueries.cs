using System.Globalization;
using ClimateGuard.Edges.Json;
using ClimateGuard.Evidence;
using ClimateGuard.Plant;

namespace ClimateGuard.Edges.Board;

/// <summary>The queries that fetch the stored readings behind a cut: each temperature in a report comes from one of them.</summary>
internal static class SourceQueries
{
    public static IEnumerable<IReadOnlyList<string>> Of(Cell cell, CutExposure cut, TimeZoneInfo zone)
    {
        var (from, to) = (cut.Samples.Count > 0 ? cut.Samples[0].Time : cut.From, cut.To);
        foreach (var sensor in cell.Sensors.Where(sensor => Counts(sensor, cut.Machine)))
        {
            yield return
            [
                $"/api/v1/series?sensor={Uri.EscapeDataString(sensor.Id)}&from={Rfc3339.Text(from)}&to={Rfc3339.Text(to)}",
                Calibration(sensor, cut.From, zone),
            ];
        }
    }

    private static bool Counts(Sensor sensor, Machine machine) => sensor.Quantity == SensorQuantity.Temperature && sensor.Place switch
    {
        SensorPlace.Air => sensor.Zone == machine.Zone,
        SensorPlace.Coolant or SensorPlace.Dielectric => sensor.Id == machine.CoolantSensor,
        SensorPlace.Part or SensorPlace.Scale or SensorPlace.Structure => sensor.Machine == machine.Id,
        _ => false,
    };

    private static string Calibration(Sensor sensor, DateTimeOffset at, TimeZoneInfo zone) =>
        sensor.Calibrations.Where(one => one.From <= at).OrderBy(one => one.From).LastOrDefault() is { } last
            ? string.Create(CultureInfo.InvariantCulture, $"from {ReportWords.Time(last.From, zone)}, u {last.Uncertainty:0.0##} K{(last.Instance is { } instance ? ", " + instance : "")}")
            : "none stated";
}
