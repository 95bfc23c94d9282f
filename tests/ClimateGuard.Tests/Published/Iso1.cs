using ClimateGuard.Plant;

namespace ClimateGuard.Tests.Published;

/// <summary>ISO 1:2016, standard reference temperature for geometrical product specification (seen quoted by NPL).</summary>
public sealed class Iso1
{
    [Fact]
    public void The_reference_temperature_is_20_degrees()
    {
        Assert.Equal(20.0, Celsius.Reference.Value); // ISO 1: 20 °C = 293.15 K, exact
        Assert.Equal(0.0, new Celsius(20.0).FromReference.Value);
        Assert.Equal(-1.5, new Celsius(18.5).FromReference.Value);
    }
}
