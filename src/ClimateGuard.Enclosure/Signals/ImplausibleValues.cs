using System.Globalization;
using ClimateGuard.Plant;

namespace ClimateGuard.Enclosure;

/// <summary>Leaves out values that the sensor cannot have seen, and says so; a unit mix-up is named as one.</summary>
internal static class ImplausibleValues
{
    private const double MixUpKelvins = 15;

    /// <summary>Turns them into gaps; the words for a person, or null when nothing was left out.</summary>
    public static string? LeaveOut(Sensor sensor, double[] row)
    {
        var (low, high) = Range(sensor);
        var all = row.Where(value => !double.IsNaN(value)).ToList();
        var good = all.Where(value => value >= low && value <= high).ToList();
        var middle = good.Count > 0 ? Robust.Quantile(good, 0.5) : double.NaN;
        var temperature = sensor.Quantity is SensorQuantity.Temperature;
        int outside = 0, fahrenheit = 0;
        for (var minute = 0; minute < row.Length; minute++)
        {
            if (double.IsNaN(row[minute])) continue;
            var mixedUp = temperature && good.Count * 2 > all.Count && LooksLikeFahrenheit(row[minute], middle);
            if (mixedUp) fahrenheit++;
            else if (row[minute] < low || row[minute] > high) outside++;
            else continue;
            row[minute] = double.NaN;
        }

        return Words(sensor, all, good.Count, outside, fahrenheit, (low, high));
    }

    private static string? Words(Sensor sensor, List<double> all, int good, int outside, int fahrenheit, (double Low, double High) range)
    {
        if (outside + fahrenheit == 0) return null;
        var wholly = sensor.Quantity is SensorQuantity.Temperature && good * 2 <= all.Count
            && Robust.Quantile(all, 0.5) is var middle && (middle - 32) / 1.8 is var converted && converted >= range.Low && converted <= range.High;
        var cause = wholly
            ? " They would fit as °F: state the unit in the plant file or in the readings."
            : fahrenheit > 0 ? string.Create(CultureInfo.InvariantCulture, $" {fahrenheit} of them would fit as °F among °C: one sender uses another unit.") : "";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{sensor.Id}: {outside + fahrenheit} of {all.Count} minutes lie outside what is plausible ({range.Low:0.#} to {range.High:0.#}) and were left out.{cause}");
    }

    private static bool LooksLikeFahrenheit(double value, double middle) =>
        Math.Abs(value - middle) > MixUpKelvins && Math.Abs(((value - 32) / 1.8) - middle) < Math.Abs(value - middle) / 4;

    // Air inside a unit may be colder and warmer than a room; a fault there must not look like a bad sensor.
    private static (double Low, double High) Range(Sensor sensor) =>
        sensor.Quantity is SensorQuantity.Temperature && sensor.Place is SensorPlace.Supply or SensorPlace.Return or SensorPlace.Mixed
            ? (Math.Min(sensor.PlausibleLow, -30), Math.Max(sensor.PlausibleHigh, 60))
            : sensor.Place is SensorPlace.Outdoor && sensor.Quantity is SensorQuantity.Temperature
                ? (Math.Min(sensor.PlausibleLow, -50), Math.Max(sensor.PlausibleHigh, 60))
                : (sensor.PlausibleLow, sensor.PlausibleHigh);
}
