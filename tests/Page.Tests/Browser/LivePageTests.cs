using CaptureAgent.Page.Tests.Support;
using Xunit;

namespace CaptureAgent.Page.Tests.Browser;

public sealed class LivePageTests
{
    [Fact(Timeout = 300_000)]
    public async Task A_reload_in_mid_weighing_loses_nothing()
    {
        await using var browser = await Chromium.StartAsync();
        await using var served = await ServedPage.StartAsync();
        var page = await browser.OpenAsync(served.Here);
        served.Feed.Write(new Agent.Events.ScanEvent(served.Time.GetUtcNow(), "scanner", "AM-0147", "waits", null));
        await page.WaitForSelectorAsync("[data-step=scanned]");
        served.Feed.Write(new Agent.Events.PlacedEvent(served.Time.GetUtcNow(), "scale", "AM-0147"));
        await page.WaitForSelectorAsync("[data-step=weighing]");

        await page.ReloadAsync();

        await page.WaitForSelectorAsync("[data-step=weighing]");
        Assert.Equal("AM-0147", await page.TextContentAsync(".now .code"));
        served.Tell("AM-0147", 186.4m);
        await page.WaitForSelectorAsync("[data-step=accepted]");
        Assert.Equal("186.4g", await page.TextContentAsync(".now .number"));
    }

    [Fact(Timeout = 600_000)]
    public async Task Twenty_pages_at_once_show_the_same_weight()
    {
        await using var browser = await Chromium.StartAsync();
        await using var served = await ServedPage.StartAsync();
        var pages = new List<Microsoft.Playwright.IPage>();
        for (var i = 0; i < 20; i++)
            pages.Add(await browser.OpenAsync(served.Here));
        await Task.WhenAll(pages.Select(page => page.WaitForSelectorAsync("[data-step=start]")));

        served.Tell("CN-0321", 58.7m, "rejected", "hand-contact");

        await Task.WhenAll(pages.Select(page => page.WaitForSelectorAsync("[data-step=refused]")));
        foreach (var page in pages)
            Assert.Equal("CN-0321 58.7g", $"{await page.TextContentAsync(".now .code")} {await page.TextContentAsync(".now .number")}");
    }
}
