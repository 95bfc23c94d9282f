using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Published;

/// <summary>Incropera, section 5.7: the half-infinite body (formulas from memory, values recomputed with 40 digits).</summary>
public sealed class Incropera_SemiInfinite
{
    [Theory]
    [InlineData(0.1, 0.887537083982)] // erfc, tolerance 1e-12
    [InlineData(0.25, 0.723673609832)]
    [InlineData(0.5, 0.479500122187)]
    [InlineData(1, 0.157299207050)]
    [InlineData(1.5, 0.0338948535247)]
    [InlineData(1.8, 0.0109094983643)]
    [InlineData(2, 0.00467773498105)]
    [InlineData(3, 2.20904969986e-5)]
    public void A_step_of_the_surface(double similarity, double expected) =>
        Within.Absolute(expected, SemiInfinite.SurfaceStepResponse(similarity), 1e-12);

    [Theory]
    [InlineData(0, 0.05, 0.05400995645)] // tolerance 1e-9
    [InlineData(0, 0.1, 0.10354302)]
    [InlineData(0, 0.5, 0.3843096558)]
    [InlineData(0, 1, 0.5724164238)]
    [InlineData(0, 2, 0.7446043237)]
    [InlineData(0.25, 0.05, 0.033581399)]
    [InlineData(0.25, 0.1, 0.06467879286)]
    [InlineData(0.25, 0.5, 0.2474497591)]
    [InlineData(0.25, 1, 0.3781359573)]
    [InlineData(0.25, 2, 0.5065872203)]
    [InlineData(0.5, 0.05, 0.01928549916)]
    [InlineData(0.5, 0.1, 0.03729336365)]
    [InlineData(0.5, 0.5, 0.1464976982)]
    [InlineData(0.5, 1, 0.229049148)]
    [InlineData(0.5, 2, 0.3153239608)]
    [InlineData(1, 0.05, 0.004887037592)]
    [InlineData(1, 0.1, 0.00951082969)]
    [InlineData(1, 0.5, 0.03899454376)]
    [InlineData(1, 1, 0.06334438837)]
    [InlineData(1, 2, 0.09144836358)]
    [InlineData(1.5, 0.05, 0.0008426459968)]
    [InlineData(1.5, 0.1, 0.001647645387)]
    [InlineData(1.5, 0.5, 0.006976347285)]
    [InlineData(1.5, 1, 0.01167602622)]
    [InlineData(1.5, 2, 0.01752702264)]
    public void Convection_at_the_surface(double similarity, double convection, double expected) =>
        Within.Absolute(expected, SemiInfinite.ConvectionResponse(similarity, convection), 1e-9);

    [Theory]
    [InlineData(0, 50)]
    [InlineData(0.5, 1000)]
    [InlineData(3, 1e8)]
    public void Strong_convection_does_not_overflow_and_tends_to_a_step(double similarity, double convection)
    {
        // erfc(ξ) − exp(−ξ²)/(b·√π) to first order in 1/b
        var limit = SemiInfinite.SurfaceStepResponse(similarity) - (Math.Exp(-similarity * similarity) / (convection * Math.Sqrt(Math.PI)));
        Within.Absolute(limit, SemiInfinite.ConvectionResponse(similarity, convection), 1 / (convection * convection));
    }

    [Theory]
    [InlineData(900, 62.419, 0.669972)] // steel, a = 1.36e-5 m²/s; depth in mm, ratio at 25 mm
    [InlineData(3600, 124.838, 0.818518)]
    [InlineData(86400, 611.577, 0.959946)]
    public void A_periodic_surface_temperature_fades_with_depth(double periodSeconds, double depthMillimetres, double ratio)
    {
        var period = TimeSpan.FromSeconds(periodSeconds);
        Within.Absolute(depthMillimetres, SemiInfinite.PenetrationDepthMetres(1.36e-5, period) * 1000, 5e-4);
        var response = SemiInfinite.Periodic(0.025, 1.36e-5, period);
        Within.Absolute(ratio, response.Gain, 5e-7);
        Within.Absolute(25 / depthMillimetres, response.LagRadians, 1e-5);
    }

    [Fact]
    public void A_constant_flux_warms_the_surface_with_the_root_of_time()
    {
        // (2q/k)·√(a·t/π) by hand: q 1000, k 50, a 1.36e-5, t 100 s: 40·√(1.36e-3/π) = 0.832251 K
        Within.Absolute(0.832251, SemiInfinite.FluxRise(1000, 50, 1.36e-5, 0, TimeSpan.FromSeconds(100)).Value, 1e-6);
        Assert.InRange(SemiInfinite.FluxRise(1000, 50, 1.36e-5, 0.5, TimeSpan.FromSeconds(100)).Value, 0, 1e-9);
    }

    [Theory]
    [InlineData(2, 24, 0.885908264, 27.63649933)] // τ h, P h
    [InlineData(1, 1, 0.157176725, 80.95693892)]
    public void A_first_order_lag_follows_a_swing(double tauHours, double periodHours, double gain, double lagDegrees)
    {
        var response = FirstOrderLag.Driven(TimeSpan.FromHours(tauHours), TimeSpan.FromHours(periodHours));
        Within.Absolute(gain, response.Gain, 1e-9);
        Within.Absolute(lagDegrees, response.LagDegrees, 1e-8);
    }
}
