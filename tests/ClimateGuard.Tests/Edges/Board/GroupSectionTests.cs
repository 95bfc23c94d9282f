using ClimateGuard.Edges.Board;
using ClimateGuard.Evidence;

namespace ClimateGuard.Tests.Edges.Board;

public sealed class GroupSectionTests
{
    // domain.md F.6 [C]: 1 % to 3 % needs 301 exposed parts, 2 % to 6 % 131
    [Theory]
    [InlineData(1, 99, "301 (80 of 100 times, one-sided 5 %); there are 12. A line on the sizes needs far fewer.")]
    [InlineData(2, 98, "131 (80 of 100 times, one-sided 5 %); there are 12. A line on the sizes needs far fewer.")]
    public void The_report_says_how_many_exposed_parts_would_show_a_threefold_rate(int bad, int good, string expected) =>
        Assert.Equal(expected, GroupSection.Needed(new TwoByTwo(1, 11, bad, good)));

    [Theory]
    [InlineData(0, 40)]
    [InlineData(10, 20)]
    public void Where_none_or_a_third_of_the_others_is_bad_a_threefold_rate_means_nothing(int bad, int good) =>
        Assert.Null(GroupSection.Needed(new TwoByTwo(1, 11, bad, good)));
}
