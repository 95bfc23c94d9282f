using System.Globalization;
using ClimateGuard.Edges.Influx;
using ClimateGuard.Watch;
using CsCheck;

namespace ClimateGuard.Tests.Edges.Influx;

/// <summary>Line protocol and InfluxQL: escapes after the reference pages of both, "InfluxDB line protocol" and "InfluxQL reference" (from memory).</summary>
public sealed class LinesTests
{
    [Fact]
    public void A_reading_is_a_line_with_its_shortest_exact_numbers()
    {
        var lines = new LineBatch("cell4");
        lines.AddReading(new KeptReading("m1/spindle", 1_767_225_600_000, 20.137, 20.137, Trust.Accepted, TrustReason.None));
        lines.AddReading(new KeptReading("m1/spindle", 1_767_225_600_001, 20.3, 19.999999999999996, Trust.Corrected, TrustReason.Calibrated));
        lines.AddReading(new KeptReading("a b,c=d", 1, 5e-324, 1.7976931348623157e308, Trust.Accepted, TrustReason.None));

        Assert.Equal(
            "reading,cell=cell4,sensor=m1/spindle value=20.137 1767225600000000000\n"
            + "reading,cell=cell4,sensor=m1/spindle value=19.999999999999996,raw=20.3,reason=\"Calibrated\" 1767225600001000000\n"
            + "reading,cell=cell4,sensor=a\\ b\\,c\\=d value=1.7976931348623157E+308,raw=5E-324 1000000\n",
            lines.Text(0, 3));
        Assert.Equal("reading,cell=cell4,sensor=m1/spindle value=19.999999999999996,raw=20.3,reason=\"Calibrated\" 1767225600001000000\n", lines.Text(1, 2));
    }

    [Fact]
    public void What_is_set_aside_stands_within_its_millisecond_at_a_place_that_its_value_gives() =>
        Gen.Double.Sample(raw =>
        {
            Assert.InRange(LineBatch.BelowMillisecond(raw), 0, 999_999);
            Assert.Equal(LineBatch.BelowMillisecond(raw), LineBatch.BelowMillisecond(raw == 0 ? -raw : raw));
        });

    [Fact]
    public void Values_of_a_sensor_hardly_ever_share_a_place()
    {
        var places = Enumerable.Range(0, 2_000).Select(n => LineBatch.BelowMillisecond(n / 100.0)).Distinct().Count();
        Assert.InRange(places, 1_990, 2_000);
    }

    [Fact]
    public void A_message_keeps_its_quotes_and_backslashes_and_loses_its_line_breaks()
    {
        var lines = new LineBatch("c");
        lines.AddMessage(new KeptMessage(42, new UnreadableMessage("a/b", "no \"number\"", "x\\\ny")));
        Assert.Equal("unreadable,cell=c topic=\"a/b\",reason=\"no \\\"number\\\"\",payload=\"x\\\\ y\" 42\n", lines.Text(0, 1));
    }

    [Theory]
    [InlineData("")]
    [InlineData("a\\b")]
    [InlineData("a\nb")]
    public void A_name_that_could_not_come_back_as_it_was_is_refused(string name) =>
        Assert.Contains("cannot be kept in InfluxDB", Assert.Throws<ArgumentException>(() => LineBatch.Tag(name)).Message, StringComparison.Ordinal);

    [Theory]
    [InlineData("s'; DROP DATABASE cg; --", "'s\\'; DROP DATABASE cg; --'")]
    [InlineData("a\\", "'a\\\\'")]
    [InlineData("a\\'b", "'a\\\\\\'b'")]
    [InlineData("line\nbreak", "'line\\nbreak'")]
    [InlineData("Kühlmittel °C 温度", "'Kühlmittel °C 温度'")]
    public void A_text_cannot_end_its_quotes(string text, string quoted) => Assert.Equal(quoted, InfluxQl.Text(text));

    [Fact]
    public void Whatever_the_name_its_quotes_close_at_the_end_and_nowhere_else() =>
        Gen.String.Sample(text =>
        {
            foreach (var (quoted, quote) in new[] { (InfluxQl.Text(text), '\''), (InfluxQl.Identifier(text), '"') })
            {
                var at = 1;
                for (; quoted[at] != quote; at += quoted[at] == '\\' ? 2 : 1)
                {
                }

                Assert.Equal(quoted.Length - 1, at);
            }
        });

    [Fact]
    public void Numbers_in_questions_do_not_follow_the_culture()
    {
        var question = new InfluxQl("c'1").Readings("s\"1", -5, 1_767_225_600_000, 10);
        Assert.Equal(
            "SELECT \"value\", \"raw\", \"reason\" FROM \"reading\" WHERE \"cell\" = 'c\\'1' AND \"sensor\" = 's\"1' AND time >= -5ms AND time < 1767225600000ms LIMIT 10",
            question);
        Assert.Equal(CultureInfo.InvariantCulture, CultureInfo.CurrentCulture);
    }

    [Fact]
    public void Moments_that_lie_together_are_asked_for_together_and_far_ones_apart()
    {
        var ranges = LateRanges.Of([("a", 0), ("a", 50_000), ("b", 7), ("a", 200_000), ("a", 1)]);
        Assert.Equal([("a", 0L, 50_000L), ("a", 200_000L, 200_000L), ("b", 7L, 7L)], ranges);
        Assert.All(LateRanges.Of(Enumerable.Range(0, 2_000).Select(n => ("a", n * 1_000L))), range => Assert.InRange(range.To - range.From, 0, 600_000));
    }
}
