using ClimateGuard.Enclosure;

namespace ClimateGuard.Tests.Published;

/// <summary>Oscillation: Hägglund (Control Engineering Practice 3, 1995; formulas from memory, figures recomputed) and R's acf.</summary>
public sealed class LoopOscillation
{
    private static readonly double[] Lh =
    [
        2.4, 2.4, 2.4, 2.2, 2.1, 1.5, 2.3, 2.3, 2.5, 2.0, 1.9, 1.7, 2.2, 1.8, 3.2, 3.2, 2.7, 2.2, 2.2, 1.9, 1.9, 1.8, 2.7, 3.0, 2.3, 2.0, 2.0,
        2.9, 2.9, 2.7, 2.7, 2.3, 2.6, 2.4, 1.8, 1.7, 1.5, 1.4, 2.1, 3.3, 3.5, 3.5, 3.1, 2.6, 2.1, 3.4, 3.0, 2.9,
    ];

    [Fact]
    public void The_limit_of_the_disturbance_area_is_a_Ti_over_pi()
    {
        var monitor = new HagglundMonitor(integralSeconds: 300, amplitude: 0.01, seconds: 1);

        Within.Absolute(0.954929659, monitor.AreaLimit, 1e-9);
        Within.Absolute(0.999933333, monitor.Forgetting, 1e-9);
    }

    [Fact]
    public void A_sine_beyond_the_limit_is_an_oscillation_and_one_below_is_none()
    {
        Assert.True(Watched(amplitude: 0.02).Oscillates);
        Assert.False(Watched(amplitude: 0.005).Oscillates);
    }

    [Fact]
    public void Acf_of_lh_as_R_prints_it() // acf(lh, plot = FALSE)
    {
        double[] expected = [0.575524475524, 0.181818181818, -0.144755244755, -0.174825174825, -0.149650349650, -0.020979020979];
        var rho = Autocorrelation.Of(Lh, 6);

        for (var lag = 0; lag < expected.Length; lag++) Within.Absolute(expected[lag], rho[lag + 1], 1e-11);
    }

    [Fact]
    public void A_sine_is_a_regular_swing_of_its_period_and_noise_is_none()
    {
        var chance = new Random(7);
        double[] sine = [.. Enumerable.Range(0, 720).Select(m => 20 + (0.3 * Math.Sin(2 * Math.PI * m / 24)) + (0.02 * chance.NextDouble()))];
        double[] noise = [.. Enumerable.Range(0, 720).Select(_ => 20 + chance.NextDouble())];

        var swing = Swing.Largest(sine, 0.2);
        Assert.NotNull(swing);
        Within.Absolute(24, swing.PeriodMinutes, 1);
        Within.Absolute(0.6, swing.PeakToPeak, 0.03);
        Within.Absolute(0.64, swing.Squareness, 0.03); // mean of |sin| is 2/π
        Assert.Null(Swing.Largest(noise, 0.2));
    }

    // Half periods of 150 s have an area of 2·150/π·amplitude; at 0.01 that is the limit.
    private static HagglundMonitor Watched(double amplitude)
    {
        var monitor = new HagglundMonitor(300, 0.01, 1);
        for (var second = 0; second < 7200; second++) monitor.Add(amplitude * Math.Sin(2 * Math.PI * second / 300));
        return monitor;
    }
}
