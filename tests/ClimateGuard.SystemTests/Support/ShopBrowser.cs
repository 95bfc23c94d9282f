using Microsoft.Playwright;

namespace ClimateGuard.SystemTests.Support;

/// <summary>A real browser (Debian's Chromium) that notes every error a page prints and every address it asks.</summary>
public sealed class ShopBrowser : IAsyncDisposable
{
    private const string Program = "/usr/bin/chromium";

    private readonly IPlaywright playwright;
    private readonly IBrowser browser;
    private readonly List<string> errors = [];
    private readonly List<string> outside = [];

    private ShopBrowser(IPlaywright playwright, IBrowser browser)
    {
        this.playwright = playwright;
        this.browser = browser;
    }

    /// <summary>What pages printed as errors.</summary>
    public IReadOnlyList<string> Errors => errors;

    /// <summary>Addresses outside this computer that pages asked for.</summary>
    public IReadOnlyList<string> Outside => outside;

    /// <summary>Where pictures go: into the repository when CLIMATEGUARD_PICTURES=1, else into a temporary folder.</summary>
    public static string Pictures { get; } = Environment.GetEnvironmentVariable("CLIMATEGUARD_PICTURES") == "1"
        ? Path.Combine(WorkerProcess.Repository, "tests", "ClimateGuard.SystemTests", "Pictures")
        : Directory.CreateTempSubdirectory("climateguard-pictures-").FullName;

    public static async Task<ShopBrowser> StartAsync()
    {
        if (!File.Exists(Program))
        {
            const string reason = $"{Program} is not installed (apt-get install chromium), so nothing is known about the pages";
            Assert.False(Environment.GetEnvironmentVariable("CLIMATEGUARD_REQUIRE_TOOLS") == "1", reason);
            Assert.Skip(reason);
        }

        var playwright = await Playwright.CreateAsync();
        var browser = await playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = Program,
            Args =
            [
                "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
                "--disable-component-update", "--disable-sync",
            ],
        });
        return new ShopBrowser(playwright, browser);
    }

    public async Task<IPage> OpenAsync(Uri address, int width = 1280, int height = 900)
    {
        var page = await browser.NewPageAsync(new() { ViewportSize = new() { Width = width, Height = height } });
        page.Console += (_, message) =>
        {
            if (message.Type == "error")
            {
                errors.Add(message.Text);
            }
        };
        page.PageError += (_, message) => errors.Add(message);
        page.Request += (_, request) =>
        {
            if (!request.Url.StartsWith(address.GetLeftPart(UriPartial.Authority), StringComparison.Ordinal)
                && !request.Url.StartsWith("data:", StringComparison.Ordinal) && !request.Url.StartsWith("blob:", StringComparison.Ordinal))
            {
                outside.Add(request.Url);
            }
        };
        await page.GotoAsync(address.ToString(), new() { WaitUntil = WaitUntilState.Load });
        return page;
    }

    public static async Task PictureAsync(IPage page, string name, bool wholePage = false)
    {
        Directory.CreateDirectory(Pictures);
        if (wholePage)
        {
            // The line at the foot of the screen would lie across the middle of a picture that is longer than the screen.
            await page.AddStyleTagAsync(new() { Content = ".safety-line { position: static; }" });
        }

        await page.ScreenshotAsync(new() { Path = Path.Combine(Pictures, name), FullPage = wholePage });
    }

    public async ValueTask DisposeAsync()
    {
        await browser.CloseAsync();
        playwright.Dispose();
    }
}
