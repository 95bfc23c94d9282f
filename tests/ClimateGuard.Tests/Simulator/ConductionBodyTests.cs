using ClimateGuard.Simulator;

namespace ClimateGuard.Tests.Simulator;

/// <summary>
/// Finite volumes against the exact series of transient conduction (Incropera, Fundamentals of Heat and Mass Transfer, chapter 5, from memory;
/// values recomputed with 40 digits). Ten volumes and backward steps of Fo/200: 0.004 of the first difference.
/// </summary>
public class ConductionBodyTests
{
    [Theory]
    // geometry (true: cylinder), Bi, Fo, centre, surface, mean, tolerance
    [InlineData(false, 0.1, 0.2, 0.993998501592, 0.951419854869, 0.980653491738, 0.004)]
    [InlineData(false, 0.1, 5, 0.626376723636, 0.596318070783, 0.616324746316, 0.004)]
    [InlineData(false, 1, 0.05, 0.999750955058, 0.790376763649, 0.957309984127, 0.004)]
    [InlineData(false, 1, 0.2, 0.950641778505, 0.643390784477, 0.851595457687, 0.004)]
    [InlineData(false, 1, 1, 0.533859401409, 0.348176851662, 0.470397248865, 0.004)]
    [InlineData(false, 10, 0.2, 0.829254730823, 0.122482238089, 0.58326203257, 0.004)]
    [InlineData(true, 0.1, 1, 0.842989594739, 0.802374989855, 0.822599425783, 0.004)]
    [InlineData(true, 1, 0.2, 0.870174243933, 0.5702277442, 0.71851625867, 0.004)]
    [InlineData(true, 5, 0.1, 0.926485891583, 0.255748425128, 0.597397010162, 0.004)]
    public void Ten_volumes_follow_the_exact_series(bool cylinder, double biot, double fourier, double centre, double surface, double mean, double tolerance)
    {
        // k = 1, rho c = 1, L = 1: Bi is the film, Fo is the time.
        var body = new ConductionBody(cylinder, 1, 1, 1, 1.0, cells: 10);
        for (var i = 0; i < 200; i++) body.Advance(biot, 0.0, fourier / 200);
        Assert.Equal(centre, body.MiddleCelsius, tolerance + 0.004);
        Assert.Equal(surface, body.SurfaceCelsius, tolerance);
        Assert.Equal(mean, body.MeanCelsius, tolerance);
    }

    // Plate of titanium, 60 mm, both faces in air, h = 15, +3 K: mean 0.881605 after 600 s, middle 0.891331, surface 0.862217.
    [Fact]
    public void A_titanium_plate_is_cooler_outside_than_inside()
    {
        var body = new ConductionBody(false, 0.030, 6.7, 4430 * 526.0, 23.0);
        for (var i = 0; i < 60; i++) body.Advance(15, 20.0, 10);
        Assert.Equal(0.881605, (body.MeanCelsius - 20) / 3, 0.001);
        Assert.Equal(0.891331, (body.MiddleCelsius - 20) / 3, 0.001);
        Assert.Equal(0.862217, (body.SurfaceCelsius - 20) / 3, 0.001);
    }

    [Fact]
    public void A_body_without_a_film_keeps_its_heat()
    {
        var body = new ConductionBody(true, 0.05, 40, 3.6e6, 33.0);
        for (var i = 0; i < 100; i++) body.Advance(0, -50, 60);
        Assert.Equal(33.0, body.MeanCelsius, 1e-9);
        Assert.Equal(33.0, body.SurfaceCelsius, 1e-9);
    }
}
