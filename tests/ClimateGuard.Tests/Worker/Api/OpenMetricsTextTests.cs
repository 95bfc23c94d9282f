using ClimateGuard.Worker.Api;

namespace ClimateGuard.Tests.Worker.Api;

public sealed class OpenMetricsTextTests
{
    [Fact]
    public void Counters_and_gauges_are_written_letter_for_letter()
    {
        var text = new OpenMetricsText()
            .Counter("climateguard_readings", "Readings \"taken\" in,\nby C:\\outcome.", null, ("outcome", "accepted", 12), ("outcome", "a\"b\\c\nd", 0))
            .Gauge("climateguard_store_size_bytes", "Size.", "bytes", (null, null, 1.5e10))
            .Gauge("climateguard_store_free_bytes", "Free.", "bytes")
            .End();

        Assert.Equal(
            "# TYPE climateguard_readings counter\n"
            + "# HELP climateguard_readings Readings \\\"taken\\\" in,\\nby C:\\\\outcome.\n"
            + "climateguard_readings_total{outcome=\"accepted\"} 12\n"
            + "climateguard_readings_total{outcome=\"a\\\"b\\\\c\\nd\"} 0\n"
            + "# TYPE climateguard_store_size_bytes gauge\n"
            + "# UNIT climateguard_store_size_bytes bytes\n"
            + "# HELP climateguard_store_size_bytes Size.\n"
            + "climateguard_store_size_bytes 15000000000\n"
            + "# TYPE climateguard_store_free_bytes gauge\n"
            + "# UNIT climateguard_store_free_bytes bytes\n"
            + "# HELP climateguard_store_free_bytes Free.\n"
            + "# EOF\n",
            text);
        Assert.Empty(OpenMetricsRules.Violations(text));
    }

    [Theory]
    [InlineData(double.NaN, "NaN")]
    [InlineData(double.PositiveInfinity, "+Inf")]
    [InlineData(double.NegativeInfinity, "-Inf")]
    [InlineData(-0.5, "-0.5")]
    public void A_gauge_may_hold_any_number(double value, string written) =>
        Assert.Contains($"\ng {written}\n", new OpenMetricsText().Gauge("g", "h", null, (null, null, value)).End(), StringComparison.Ordinal);

    [Theory]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void A_counter_only_counts_upwards(double value) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new OpenMetricsText().Counter("c", "h", null, (null, null, value)).End());

    [Theory]
    [InlineData("Bad", null)]
    [InlineData("1bad", null)]
    [InlineData("store_size", "bytes")]
    [InlineData("twice", null)]
    public void A_wrong_name_a_unit_that_is_not_in_it_or_a_second_family_of_one_name_is_refused(string name, string? unit) =>
        Assert.Throws<ArgumentException>(() => new OpenMetricsText().Gauge("twice", "h", null).Gauge(name, "h", unit));

    [Theory]
    [InlineData("# TYPE a counter\na 1\n# EOF\n", "counter sample")]
    [InlineData("# TYPE a gauge\na 1\n", "# EOF")]
    [InlineData("# TYPE a gauge\na 1\n\n# EOF\n", "blank")]
    [InlineData("# TYPE a gauge\na 1\n# TYPE b gauge\nb 1\na 2\n# EOF\n", "outside its family")]
    [InlineData("# TYPE a gauge\na{x=\"1\"} 1\na{x=\"1\"} 2\n# EOF\n", "twice")]
    [InlineData("# TYPE a gauge\na one\n# EOF\n", "number")]
    [InlineData("# TYPE a_s gauge\n# UNIT a_s bytes\na_s 1\n# EOF\n", "unit")]
    public void The_rules_that_check_the_text_see_what_is_wrong(string text, string violation) =>
        Assert.Contains(OpenMetricsRules.Violations(text), found => found.Contains(violation, StringComparison.Ordinal));
}
