using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Thermal.MachineDrift;

/// <summary>
/// Drift tests whose truth is known: the modes are integrated here by Runge-Kutta steps of 20 s, without the code under test.
/// </summary>
internal static class DriftFitSynthetic
{
    public static readonly DateTimeOffset Start = new(2025, 3, 3, 6, 0, 0, TimeSpan.Zero);

    /// <summary>The gantry of the demo, Z: −5 µm/K at 1.2 h against +14 µm/K at 14 h.</summary>
    public static readonly (double S, double TauHours)[] Gantry = [(-5.0, 1.2), (14.0, 14.0)];

    /// <summary>A day's swing of ±0.4 K and a set-back of 2.4 K that is let in and out within an hour.</summary>
    public static double SetBack(double hours) =>
        20.0 + (0.4 * Math.Sin(2.0 * Math.PI * (hours - 4.0) / 24.0)) + (2.4 * (Ramp(hours - 20.0) - Ramp(hours - 44.0)));

    /// <summary>Only a day's swing of ±0.8 K.</summary>
    public static double DaySwing(double hours) => 20.0 + (0.8 * Math.Sin(2.0 * Math.PI * (hours - 4.0) / 24.0));

    /// <summary>The times of a record, in h.</summary>
    public static double[] Every(double minutes, double hours) =>
        [.. Enumerable.Range(0, (int)Math.Round(hours * 60.0 / minutes) + 1).Select(i => i * minutes / 60.0)];

    public static DriftTestRecord Record(
        IReadOnlyList<double> hours, Func<double, double> air, IReadOnlyList<double> displacement, Axis axis = Axis.Z) =>
        new(
            [.. hours.Select(h => Start + TimeSpan.FromHours(h))],
            [.. hours.Select(h => new Celsius(air(h)))],
            new Dictionary<Axis, IReadOnlyList<double>> { [axis] = displacement });

    /// <summary>Displacement of a machine that was far from rest when the record began, with white noise.</summary>
    public static double[] Displacement(
        IReadOnlyList<double> hours,
        Func<double, double> air,
        (double S, double TauHours)[] modes,
        int seed,
        double noiseMicrometres = 0.3,
        double startKelvins = 0.7,
        double offset = 3.0)
    {
        var chance = new Random(seed);
        var displacement = new double[hours.Count];
        foreach (var (s, tau) in modes)
        {
            var theta = startKelvins;
            displacement[0] += s * theta;
            for (var i = 1; i < hours.Count; i++)
            {
                theta = Integrated(theta, hours[i - 1], hours[i], air, tau);
                displacement[i] += s * theta;
            }
        }

        return [.. displacement.Select(d => d + offset + (noiseMicrometres * Normal(chance)))];
    }

    public static double Normal(Random chance) =>
        Math.Sqrt(-2.0 * Math.Log(1.0 - chance.NextDouble())) * Math.Cos(2.0 * Math.PI * chance.NextDouble());

    /// <summary>dθ/dt = (T − 20 − θ)/τ by the classical Runge-Kutta method.</summary>
    public static double Integrated(double theta, double from, double to, Func<double, double> air, double tau)
    {
        var steps = Math.Max(1, (int)Math.Ceiling((to - from) * 180.0));
        var h = (to - from) / steps;
        double Slope(double t, double value) => (air(t) - 20.0 - value) / tau;
        for (var i = 0; i < steps; i++)
        {
            var t = from + (i * h);
            var k1 = Slope(t, theta);
            var k2 = Slope(t + (h / 2.0), theta + (h / 2.0 * k1));
            var k3 = Slope(t + (h / 2.0), theta + (h / 2.0 * k2));
            var k4 = Slope(t + h, theta + (h * k3));
            theta += h / 6.0 * (k1 + (2.0 * k2) + (2.0 * k3) + k4);
        }

        return theta;
    }

    private static double Ramp(double hours) => Math.Clamp(hours, 0.0, 1.0);
}
