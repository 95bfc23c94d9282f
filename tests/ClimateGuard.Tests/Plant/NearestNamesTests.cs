using ClimateGuard.Plant;

namespace ClimateGuard.Tests.Plant;

public class NearestNamesTests
{
    [Theory]
    [InlineData("uncertantyK", "uncertaintyK")]
    [InlineData("c", "C")]
    [InlineData("m1/coolent", "m1/coolant")]
    public void The_name_a_person_meant_is_offered_alone(string typed, string meant) =>
        Assert.Equal([meant], NearestNames.To(typed, ["uncertaintyK", "heightM", "C", "F", "K", "m1/coolant", "store/pallet"]));

    [Fact]
    public void Where_nothing_is_near_a_short_list_is_shown_whole() =>
        Assert.Equal("known: alpha, density", NearestNames.Hint("zzzzzzz", ["alpha", "density"]));
}
