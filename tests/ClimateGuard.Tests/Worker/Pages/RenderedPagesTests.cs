using ClimateGuard.Watch;
using ClimateGuard.Worker.Pages;
using ClimateGuard.Worker.Pages.Live;
using ClimateGuard.Worker.Pages.Machinist;
using ClimateGuard.Worker.Pages.Sensors;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;

namespace ClimateGuard.Tests.Worker.Pages;

public sealed class RenderedPagesTests
{
    private static async Task<string> Render<TPage>(CellSnapshot? snapshot)
        where TPage : IComponent
    {
        var services = new ServiceCollection().AddLogging().AddSingleton(TimeProvider.System).AddSingleton<LiveCell>().AddScoped<LiveView>();
        await using var provider = services.BuildServiceProvider();
        if (snapshot is not null)
        {
            provider.GetRequiredService<LiveCell>().Show(snapshot);
        }

        await using var scope = provider.CreateAsyncScope();
        await using var renderer = new HtmlRenderer(scope.ServiceProvider, NullLoggerFactory.Instance);
        return await renderer.Dispatcher.InvokeAsync(async () => (await renderer.RenderComponentAsync<TPage>()).ToHtmlString());
    }

    [Fact]
    public async Task The_floor_shows_each_machine_with_word_shape_action_and_a_link()
    {
        var html = await Render<FloorPage>(InventedCell.At(InventedCell.TenPastTen));
        foreach (var level in Enum.GetValues<Level>())
        {
            Assert.Contains($">{level.Word()}<", html, StringComparison.Ordinal);
            Assert.Contains($"sign-{LevelLook.Css(level)}\"", html, StringComparison.Ordinal);
        }

        Assert.Contains("href=\"machine/M3\"", html, StringComparison.Ordinal);
        Assert.Contains("Flush 25 min once the chiller is back", html, StringComparison.Ordinal);
        Assert.True(html.IndexOf("machine/M3", StringComparison.Ordinal) < html.IndexOf("machine/M1", StringComparison.Ordinal));
    }

    [Fact]
    public async Task What_comes_from_outside_is_escaped()
    {
        var cell = InventedCell.At(InventedCell.TenPastTen);
        const string Evil = "<img src=x onerror=alert(1)>";
        var machines = cell.Machines.Select(m => m with { Outlook = m.Outlook with { Serial = Evil, Reason = Evil, Action = Evil } });
        var sensors = cell.Sensors.Select(s => s with { Because = Evil });
        cell = cell with { Machines = [.. machines], Sensors = [.. sensors] };
        foreach (var html in new[] { await Render<FloorPage>(cell), await Render<SensorsPage>(cell) })
        {
            Assert.DoesNotContain("<img", html, StringComparison.Ordinal);
            Assert.Contains("&lt;img", html, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task A_feature_whose_numbers_are_missing_does_not_break_the_page()
    {
        var cell = InventedCell.At(InventedCell.TenPastTen);
        var broken = InventedCell.Feature("pattern", double.NaN, double.NaN, double.NaN, 18, double.NaN);
        var machines = cell.Machines.Select(m => m with { Outlook = m.Outlook with { Worst = broken, Features = [broken] } });
        var html = await Render<FloorPage>(cell with { Machines = [.. machines] });
        Assert.Contains("no ruler: a number is missing", html, StringComparison.Ordinal);
        Assert.DoesNotContain("NaN", html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Before_the_first_snapshot_nothing_is_ready()
    {
        var html = await Render<FloorPage>(null);
        Assert.Contains("ask before the finish cut", html, StringComparison.Ordinal);
        Assert.DoesNotContain("ready", html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Each_ruler_says_in_words_what_it_shows()
    {
        var html = await Render<FloorPage>(InventedCell.At(InventedCell.TenPastTen));
        Assert.Equal(5, html.Split("role=\"img\" aria-label=\"Budget ruler, ").Length - 1);
    }

    [Fact]
    public void The_pages_register_what_they_need()
    {
        var services = new ServiceCollection().AddLogging();
        services.AddPages();
        using var provider = services.BuildServiceProvider();
        Assert.NotNull(provider.GetRequiredService<LiveCell>());
        using var scope = provider.CreateScope();
        Assert.NotNull(scope.ServiceProvider.GetRequiredService<LiveView>());
    }
}
