using ClimateGuard.Simulator;

namespace ClimateGuard.Tests.Simulator;

/// <summary>The incident of the tripped chiller: 4.9 MJ/K, 6 kW net, 250 W/K. The numbers come from the text of the demo scenario.</summary>
public class CoolantTests
{
    [Theory]
    [InlineData(10, 0.72, 0.01)]
    [InlineData(30, 2.11, 0.01)]
    [InlineData(60, 4.03, 0.01)]
    [InlineData(120, 7.38, 0.02)]
    public void Coolant_without_its_chiller_rises_like_this(int minutes, double kelvin, double tolerance)
    {
        var tank = new CoolantTank(4.9e6, 250, 6000, 15_000) { ChillerAvailable = false };
        for (var i = 0; i < minutes * 6; i++) tank.Advance(20.0, true, 10);
        Assert.Equal(kelvin, tank.Celsius - 20, tolerance);
    }

    // A disc of 55 mm under 600 W/(m2 K) lags the coolant; 11.6 um/(m K) over 900 mm is 10.44 um/K of true position.
    // The text's 17.5 and 31.3 stand 0.7 um above what these inputs alone give, so the tolerance is 1 um.
    [Theory]
    [InlineData(30, 17.5, 1.0)]
    [InlineData(50, 31.3, 1.0)]
    public void The_hole_pattern_of_the_disc_follows_the_coolant(int minutes, double truePositionMicrometres, double tolerance)
    {
        var tank = new CoolantTank(4.9e6, 250, 6000, 15_000) { ChillerAvailable = false };
        var disc = new ConductionBody(false, 0.055, 45, 3.73e6, 20.0);
        for (var i = 0; i < minutes * 6; i++)
        {
            tank.Advance(20.0, true, 10);
            disc.Advance(600, tank.Celsius, 10);
        }

        Assert.Equal(truePositionMicrometres, 10.44 * (disc.MeanCelsius - 20), tolerance);
    }

    [Fact]
    public void A_chiller_holds_the_tank_within_its_band()
    {
        var tank = new CoolantTank(4.9e6, 250, 6000, 15_000);
        for (var i = 0; i < 6 * 600; i++)
        {
            tank.Advance(20.0, true, 10);
            Assert.InRange(tank.Celsius, 19.8, 20.2);
        }
    }

    // Wet-bulb temperature at 20 degC: 13.0 at 45 %, 15.0 at 60 % (psychrometric chart); the fit used is good to 1 K.
    [Theory]
    [InlineData(45, 13.0, 0.3)]
    [InlineData(60, 15.0, 0.3)]
    public void A_wet_surface_goes_towards_the_wet_bulb(double humidity, double celsius, double tolerance) =>
        Assert.Equal(celsius, WetBulb.Celsius(20, humidity), tolerance);
}
