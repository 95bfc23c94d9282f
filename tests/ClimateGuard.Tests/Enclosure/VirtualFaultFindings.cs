using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Enclosure;

/// <summary>Faults of the virtual cell, which shares no model with the rules; the whole list over many seeds is the bench diagnose-virtual.</summary>
public sealed class VirtualFaultFindings
{
    private static readonly Lazy<VirtualFaultTrial> Trial = new(() => new VirtualFaultTrial(seed: 11, special: false));

    [Fact]
    public void Healthy_days_have_no_finding() => Assert.DoesNotContain(Trial.Value.Healthy().Findings, f => f.Flagged);

    [Theory]
    [InlineData("F07", "filter")]
    [InlineData("F09", "chilled water supply")]
    [InlineData("F13", "sensor")]
    [InlineData("F16", "door")]
    [InlineData("F20", "air distribution")]
    [InlineData("F23", "control loop")]
    [InlineData("F33", "control loop")]
    public void A_fault_is_the_first_finding_of_its_day(string code, string component)
    {
        var first = Trial.Value.Faulty(code)[0];

        Assert.Equal(code, first.Assessment.Cause.Id);
        Assert.Equal(component, first.Assessment.Component);
        Assert.True(first.Flagged);
    }
}
