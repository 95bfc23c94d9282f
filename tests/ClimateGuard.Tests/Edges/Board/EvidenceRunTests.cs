using System.Text;
using System.Text.Json;
using ClimateGuard.Edges.Board;
using ClimateGuard.Evidence;
using UglyToad.PdfPig;

namespace ClimateGuard.Tests.Edges.Board;

public sealed class EvidenceRunTests
{
    // One replay serves the tests that only look at it.
    private static readonly Lazy<Task<BoardData>> Warm = new(async () =>
    {
        using var disc = new WarmDisc();
        return await disc.RunAsync(CancellationToken.None);
    });

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_disc_that_was_cut_warm_is_explained_by_the_replayed_readings_and_its_span_confirms_it()
    {
        var one = Assert.Single((await Warm.Value).Answer.Features);

        Assert.Equal(WarmDisc.Eps, one.Exposure!.MeanEps, 2.0);
        Assert.Equal(36.8, one.Recomputed!.MeanMicrometres, 2.5);
        Assert.Equal(0.0, one.Exposure.NaiveAirKelvins, 0.05);
        Assert.Equal(VerdictLevel.Confirmed, one.Verdict.Level);
        Assert.Contains(one.Case.IndependentEvidence, evidence => evidence.StartsWith("span at 2026-03-02 09:50Z", StringComparison.Ordinal));
        Assert.Equal(ZeroEffectAnswer.Yes, one.AtZeroEffect.InTolerance);
        Assert.Equal(4.0, -one.Pattern!.EquivalentKelvins.Value, 0.3);
    }

    [Fact]
    public async Task The_prediction_of_the_cut_stands_beside_the_one_computed_now_and_says_where_it_is_from()
    {
        var one = Assert.Single((await Warm.Value).Answer.Features);

        Assert.NotNull(one.Frozen);
        Assert.True(one.Frozen.At < one.Inspected.Step.Cuts[0].Start);
        Assert.StartsWith("outlook ", one.Frozen.Source, StringComparison.Ordinal);
        Assert.True(one.Recomputed!.At > one.Frozen.At);
    }

    [Fact]
    public async Task Without_a_check_of_the_model_nothing_is_claimed()
    {
        using var disc = new WarmDisc { SpanIsProbed = false };
        var verdict = Assert.Single((await disc.RunAsync(Cancellation)).Answer.Features).Verdict;

        Assert.Equal(VerdictLevel.Possible, verdict.Level);
        Assert.Contains("not validated", Assert.Single(verdict.Caps), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_pattern_that_went_the_other_way_is_not_temperature_however_warm_it_was()
    {
        using var disc = new WarmDisc { MeasuredEps = 46 };
        Assert.Equal(VerdictLevel.Possible, Assert.Single((await disc.RunAsync(Cancellation)).Answer.Features).Verdict.Level);
    }

    [Fact]
    public async Task Lost_readings_are_said_and_not_bridged()
    {
        using var disc = new WarmDisc { AirIsLost = true };
        var one = Assert.Single((await disc.RunAsync(Cancellation)).Answer.Features);

        Assert.InRange(one.Exposure!.KnownShare, 0, 0.3);
        Assert.Equal(VerdictLevel.NotAssessable, one.Verdict.Level);
        Assert.StartsWith("Not assessable: data missing (", one.Verdict.Wording, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_device_of_unknown_mode_gives_a_range_and_at_most_possible_and_is_listed()
    {
        using var disc = new WarmDisc { Compensation = "" };
        var data = await disc.RunAsync(Cancellation);

        Assert.InRange((int)Assert.Single(data.Answer.Features).Verdict.Level, 0, 2);
        Assert.Contains(data.Answer.Unknown, said => said.StartsWith("device CMM: its compensation mode is not known", StringComparison.Ordinal));
    }

    [Fact]
    public async Task The_same_data_give_the_same_report_byte_for_byte_in_all_three_forms()
    {
        using var disc = new WarmDisc();
        var (first, second) = (await Warm.Value, await disc.RunAsync(Cancellation));

        Assert.Equal(SerialReport.Html(first, "S1"), SerialReport.Html(second, "S1"));
        Assert.Equal(SerialReport.Json(first, "S1"), SerialReport.Json(second, "S1"));
        Assert.Equal(SerialReport.Pdf(first, "S1"), SerialReport.Pdf(second, "S1"));
        Assert.Null(SerialReport.Pdf(first, "S2"));
    }

    [Fact]
    public async Task The_three_forms_say_the_same_and_what_comes_from_outside_is_text_and_nothing_else()
    {
        const string serial = "<script>alert(1)</script>&\"Ω漢";
        using var disc = new WarmDisc { Serial = serial };
        var data = await disc.RunAsync(Cancellation);
        var html = Encoding.UTF8.GetString(SerialReport.Html(data, serial)!);
        using var json = JsonDocument.Parse(SerialReport.Json(data, serial)!);
        using var pdf = PdfDocument.Open(SerialReport.Pdf(data, serial)!);
        var text = string.Join(' ', pdf.GetPages().Select(page => page.Text));

        Assert.DoesNotContain("<script", html, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("http", html.Replace("http://www.w3.org/2000/svg", "", StringComparison.Ordinal).Replace("http-equiv", "", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Equal(serial, json.RootElement.GetProperty("features")[0].GetProperty("serial").GetString());
        Assert.Contains("[U+6F22]", text, StringComparison.Ordinal);
        foreach (var said in new[] { "Temperature confirmed", data.ReadingsSha256[..20], "Disposition", "Other serials with the same exposure", "The pattern taken apart" })
        {
            Assert.Contains(said, html, StringComparison.Ordinal);
            Assert.Contains(said.Replace(" ", "", StringComparison.Ordinal), text.Replace(" ", "", StringComparison.Ordinal), StringComparison.Ordinal);
        }
    }
}
