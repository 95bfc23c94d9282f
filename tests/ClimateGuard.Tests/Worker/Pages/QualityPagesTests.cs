using ClimateGuard.Edges.Board;
using ClimateGuard.Evidence;
using ClimateGuard.Tests.Edges.Board;
using ClimateGuard.Worker.Pages.Quality;
using ClimateGuard.Worker.Pages.Words;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;

namespace ClimateGuard.Tests.Worker.Pages;

public sealed class QualityPagesTests
{
    private const string Evil = "<img src=x onerror=alert(1)>&serial=S2";

    private static async Task<BoardData> DataAsync(WarmDisc disc)
    {
        using (disc) return await disc.RunAsync(TestContext.Current.CancellationToken);
    }

    [Fact]
    public async Task The_verdict_stands_first_in_its_fixed_words_with_what_is_left_without_temperature()
    {
        var data = await DataAsync(new WarmDisc());
        var one = Assert.Single(data.Answer.Features);

        var html = await Render<FeatureVerdict>(new() { ["One"] = one });
        Assert.Contains("data-level=\"5\"", html, StringComparison.Ordinal);
        Assert.Contains(VerdictWords.Of(VerdictLevel.Confirmed), html, StringComparison.Ordinal);
        Assert.Contains("Would have been in tolerance at zero thermal effect", html, StringComparison.Ordinal);
        Assert.Equal("1 feature of 1 part inspected, all in tolerance.", QualityWords.Summary([one with { Inspected = one.Inspected }]));

        var figures = await Render<FeatureFigures>(new() { ["One"] = one, ["Group"] = Assert.Single(data.Answer.Groups), ["Zone"] = data.Zone });
        Assert.Contains("The pattern is that of the prediction: scale measured", figures, StringComparison.Ordinal);
        Assert.Contains("nothing computed later replaces that", figures, StringComparison.Ordinal);
        Assert.Equal(4, figures.Split("<svg ").Length - 1);
        Assert.DoesNotContain("NaN", figures, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_serial_from_outside_stays_text_on_the_page_and_one_field_of_the_address()
    {
        var one = Assert.Single((await DataAsync(new WarmDisc { Serial = Evil })).Answer.Features);

        var html = await Render<VerdictList>(new() { ["Features"] = new[] { one }, ["Time"] = CellTime.Of("UTC") });
        Assert.DoesNotContain("<img", html, StringComparison.Ordinal);
        Assert.Contains("&lt;img", html, StringComparison.Ordinal);
        Assert.DoesNotContain("&serial=S2", QualityWords.Address(one), StringComparison.Ordinal);
        Assert.DoesNotContain("/", QualityWords.Report("a/../b", "pdf")["api/v1/evidence/".Length..^"/report?format=pdf".Length], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_a_check_the_page_says_that_the_model_is_not_validated_and_what_caps_the_verdict()
    {
        var data = await DataAsync(new WarmDisc { SpanIsProbed = false });

        var html = await Render<FeatureVerdict>(new() { ["One"] = Assert.Single(data.Answer.Features) });
        Assert.Contains("No more than that can be said: the model is not validated", html, StringComparison.Ordinal);
        Assert.StartsWith("not validated, so no verdict goes beyond", QualityWords.Validity(Assert.Single(data.Answer.Validity)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_pictures_of_a_pattern_add_up_to_what_was_measured_hole_by_hole()
    {
        var pattern = Assert.Single((await DataAsync(new WarmDisc())).Answer.Features).Pattern!;

        var n = pattern.Measured.Count;
        LineShape[] arrows = [.. DecompositionFigure.Of(pattern).Shapes.OfType<LineShape>().Take(6 * n)];
        for (var i = 0; i < n; i++)
        {
            var parts = Enumerable.Range(2, 4).Select(panel => arrows[(panel * n) + i]).ToArray();
            Assert.Equal(arrows[i].X2 - arrows[i].X1, parts.Sum(arrow => arrow.X2 - arrow.X1), 1e-9);
            Assert.Equal(arrows[i].Y2 - arrows[i].Y1, parts.Sum(arrow => arrow.Y2 - arrow.Y1), 1e-9);
        }
    }

    [Fact]
    public async Task One_inspected_part_is_no_case_for_sampling_and_the_block_says_what_is_missing()
    {
        var data = await DataAsync(new WarmDisc());

        var found = Assert.Single(SamplingCases.Of(data.Cell, data.Answer));
        Assert.Equal((1, 1, 0), (found.Parts, found.Episodes, found.LeftOut));
        Assert.NotEqual(SamplingAnswer.MayBeProposed, found.Answer);
        var html = await Render<SamplingBlock>(new() { ["Sampling"] = found });
        Assert.Contains("24 more shifts", html, StringComparison.Ordinal);
        Assert.DoesNotContain("NaN", html, StringComparison.Ordinal);
    }

    private static async Task<string> Render<TComponent>(Dictionary<string, object?> parameters)
        where TComponent : IComponent
    {
        await using var provider = new ServiceCollection().AddLogging().BuildServiceProvider();
        await using var renderer = new HtmlRenderer(provider, NullLoggerFactory.Instance);
        return await renderer.Dispatcher.InvokeAsync(async () => (await renderer.RenderComponentAsync<TComponent>(ParameterView.FromDictionary(parameters))).ToHtmlString());
    }
}
