using Microsoft.Playwright;
using Xunit;

namespace CaptureAgent.Page.Tests.Support;

/// <summary>Debian's Chromium, driven by Playwright. Where it is not installed, a test is skipped and says the line that installs it.</summary>
internal sealed class Chromium : IAsyncDisposable
{
    private static readonly string? Path = ((string[])["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"]).FirstOrDefault(File.Exists);

    private readonly IPlaywright playwright;
    private readonly IBrowser browser;

    private Chromium(IPlaywright playwright, IBrowser browser) => (this.playwright, this.browser) = (playwright, browser);

    /// <summary>Where pictures of the page are kept.</summary>
    public static string Pictures { get; } = Directory.CreateDirectory(
        Environment.GetEnvironmentVariable("CAPTURE_AGENT_PICTURES") ?? System.IO.Path.Combine(AppContext.BaseDirectory, "pictures")).FullName;

    public static async Task<Chromium> StartAsync()
    {
        Assert.SkipWhen(Path is null, "SKIPPED: no Chromium. Install it: apt-get install -y --no-install-recommends chromium fonts-dejavu-core");
        var playwright = await Playwright.CreateAsync();
        var browser = await playwright.Chromium.LaunchAsync(new() { ExecutablePath = Path, Args = ["--no-sandbox", "--disable-gpu"], Timeout = 180_000 });
        return new(playwright, browser);
    }

    /// <summary>A tablet of ten inches (1280 x 800 CSS pixels) or a phone (412 x 860).</summary>
    public async Task<IPage> OpenAsync(string url, bool isPhone = false)
    {
        var context = await browser.NewContextAsync(new()
        {
            ViewportSize = isPhone ? new() { Width = 412, Height = 860 } : new() { Width = 1280, Height = 800 },
            Locale = "en-GB",
        });
        var page = await context.NewPageAsync();
        page.SetDefaultTimeout(180_000);
        await page.GotoAsync(url, new() { WaitUntil = WaitUntilState.DOMContentLoaded });
        return page;
    }

    public static Task KeepAsync(IPage page, string name) => page.ScreenshotAsync(new() { Path = System.IO.Path.Combine(Pictures, $"{name}.png") });

    public async ValueTask DisposeAsync()
    {
        await browser.DisposeAsync();
        playwright.Dispose();
    }
}
