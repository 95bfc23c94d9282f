using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>A drift test: the machine stands still, the air moves, and the tool's displacement from the work is recorded.</summary>
/// <remarks>
/// The environmental test of ISO 230-3 (machine powered, axes and spindle still; from memory). 24 h is the usual minimum, 48 h to 72 h
/// with a set-back or a set-point step of 1 K to 2 K say much more. Displacement is tool minus work in machine axes. Samples may be
/// irregular. Equality is that of the object; immutable (the values are copied), so safe across threads.
/// </remarks>
public sealed class DriftTestRecord
{
    /// <summary>The shortest record that is usual in practice (ISO 230-3, from memory).</summary>
    public static readonly TimeSpan UsualMinimum = TimeSpan.FromHours(24);

    private const double LargestMicrometres = 1e6;
    private readonly Dictionary<Axis, double[]> _displacement;
    private readonly DateTimeOffset[] _times;
    private readonly Celsius[] _temperatures;

    /// <summary>Checks and copies a record.</summary>
    /// <param name="times">The sample times, each later than the one before; at least two.</param>
    /// <param name="temperatures">Air or surface temperature at these times, in [-90, 400] °C.</param>
    /// <param name="displacementMicrometres">Tool minus work at these times, per axis, in µm, in [-1 000 000, 1 000 000].</param>
    /// <exception cref="ArgumentException">
    /// Lengths differ, times do not increase, no axis is given, or there are fewer than two samples.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a number or lies outside its range.</exception>
    public DriftTestRecord(
        IReadOnlyList<DateTimeOffset> times,
        IReadOnlyList<Celsius> temperatures,
        IReadOnlyDictionary<Axis, IReadOnlyList<double>> displacementMicrometres)
    {
        ArgumentNullException.ThrowIfNull(times);
        ArgumentNullException.ThrowIfNull(temperatures);
        ArgumentNullException.ThrowIfNull(displacementMicrometres);
        CheckTimes(times);
        CheckLength(temperatures.Count, times.Count, "temperatures", nameof(temperatures));
        if (displacementMicrometres.Count == 0)
        {
            throw new ArgumentException("The drift test has no displacement; give at least one axis.", nameof(displacementMicrometres));
        }

        for (var i = 0; i < temperatures.Count; i++)
        {
            CheckValue(temperatures[i].Value, -90.0, 400.0, "temperature", "°C", i, times[i], nameof(temperatures));
        }

        foreach (var (axis, values) in displacementMicrometres)
        {
            CheckLength(values.Count, times.Count, $"displacements of {axis}", nameof(displacementMicrometres));
            for (var i = 0; i < values.Count; i++)
            {
                CheckValue(
                    values[i], -LargestMicrometres, LargestMicrometres, $"displacement of {axis}", "µm", i, times[i],
                    nameof(displacementMicrometres));
            }
        }

        _times = [.. times];
        _temperatures = [.. temperatures];
        _displacement = displacementMicrometres.ToDictionary(pair => pair.Key, pair => pair.Value.ToArray());
    }

    /// <summary>The sample times.</summary>
    public IReadOnlyList<DateTimeOffset> Times => _times;

    /// <summary>Air or surface temperature at the sample times.</summary>
    public IReadOnlyList<Celsius> Temperatures => _temperatures;

    /// <summary>The axes that were recorded.</summary>
    public IReadOnlyCollection<Axis> Axes => _displacement.Keys;

    /// <summary>From the first to the last sample.</summary>
    public TimeSpan Duration => _times[^1] - _times[0];

    /// <summary>Tool minus work along an axis at the sample times, in µm.</summary>
    /// <param name="axis">One of <see cref="Axes"/>.</param>
    /// <returns>One value for each of <see cref="Times"/>.</returns>
    /// <exception cref="ArgumentException">The axis was not recorded.</exception>
    public IReadOnlyList<double> DisplacementMicrometres(Axis axis) =>
        _displacement.TryGetValue(axis, out var values)
            ? values
            : throw new ArgumentException(
                $"The drift test did not record {axis}; it has {string.Join(", ", _displacement.Keys.Order())}.", nameof(axis));

    private static void CheckTimes(IReadOnlyList<DateTimeOffset> times)
    {
        if (times.Count < 2)
        {
            throw new ArgumentException($"A drift test needs at least two samples, this one has {times.Count}.", nameof(times));
        }

        for (var i = 1; i < times.Count; i++)
        {
            if (times[i] <= times[i - 1])
            {
                throw new ArgumentException(
                    FormattableString.Invariant($"Sample {i + 1} at {times[i]:u} is not later than the one before ({times[i - 1]:u}); ")
                    + "sort the record and drop repeated times.",
                    nameof(times));
            }
        }
    }

    private static void CheckLength(int found, int expected, string what, string parameter)
    {
        if (found != expected)
        {
            throw new ArgumentException(
                $"The drift test has {expected} times but {found} {what}; each sample needs one of each.", parameter);
        }
    }

    private static void CheckValue(
        double value, double low, double high, string what, string unit, int index, DateTimeOffset time, string parameter)
    {
        // The pattern is also false for NaN.
        if (value >= low && value <= high)
        {
            return;
        }

        throw new ArgumentOutOfRangeException(
            parameter,
            value,
            FormattableString.Invariant($"The {what} of sample {index + 1} at {time:u} must lie in [{low:0}, {high:0}] {unit}; ")
            + "leave the whole sample out if it was not measured.");
    }
}
