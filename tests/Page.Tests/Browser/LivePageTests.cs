using CaptureAgent.Page.Tests.Support;
using Xunit;

namespace CaptureAgent.Page.Tests.Browser;

public sealed class LivePageTests
{
    [Fact(Timeout = 600_000)]
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

    [Fact(Timeout = 600_000)]
    public async Task A_network_that_goes_dead_is_told_and_comes_back_without_a_click()
    {
        await using var browser = await Chromium.StartAsync();
        await using var served = await ServedPage.StartAsync(TimeProvider.System);
        await using var network = new CutLine(served.Port);
        var page = await browser.OpenAsync(network.Address);
        await page.WaitForSelectorAsync("[data-step=start]");

        network.Cut();
        served.Tell("AM-0147", 186.4m);
        await page.WaitForSelectorAsync("#link:not([hidden])");
        Assert.Equal("start", await page.GetAttributeAsync(".now", "data-step"));
        network.Mend();

        await page.WaitForSelectorAsync("[data-step=accepted]");
        await page.WaitForSelectorAsync("#link[hidden]", new() { State = Microsoft.Playwright.WaitForSelectorState.Attached });
    }

    // Playwright's clock stands for a tablet whose own is two hours off, and that sleeps: time goes on and no timer fires.
    [Fact(Timeout = 600_000)]
    public async Task The_minutes_of_a_batch_run_down_by_the_stations_clock_also_while_a_tablet_sleeps()
    {
        await using var browser = await Chromium.StartAsync();
        await using var served = await ServedPage.StartAsync();
        var now = served.Time.GetUtcNow();
        served.Feed.Write(new Agent.Events.BatchEvent(now, 3, "in-range", 39.8m, now.AddMinutes(60), now.AddMinutes(9.5)));
        var page = await browser.OpenAsync("about:blank");
        await page.Clock.InstallAsync(new() { TimeDate = now.AddHours(2).UtcDateTime });
        await using var network = new CutLine(served.Port);
        await page.GotoAsync($"{network.Address}/batch");
        await page.WaitForSelectorAsync(".ends li:first-child b:text-is('9 min')");

        // No event reaches the page from here on.
        network.Cut();
        await page.Clock.FastForwardAsync(5 * 60 * 1000);
        await page.WaitForSelectorAsync(".ends li:first-child b:text-is('4 min')");
        Assert.DoesNotContain("when it was measured", await page.TextContentAsync(".batch-state"), StringComparison.Ordinal);

        await page.Clock.FastForwardAsync(6 * 60 * 1000);
        await page.WaitForSelectorAsync(".ends li.bad:first-child:has-text('Too cold since about')");
        Assert.StartsWith("in range when it was measured", await page.TextContentAsync(".batch-state"), StringComparison.Ordinal);
    }

    [Fact(Timeout = 600_000)]
    public async Task Feeds_intakes_and_what_was_seen_reach_an_open_view_without_a_reload()
    {
        await using var browser = await Chromium.StartAsync();
        await using var served = await ServedPage.StartAsync();
        var now = served.Time.GetUtcNow();
        var before = served.Weigh("AM-0147", 186.4m, ServedPage.Day);
        var page = await browser.OpenAsync($"{served.Here}/chick/AM-0147");
        await page.WaitForSelectorAsync("svg.chart .band");

        var feed = new Store.FeedRow(Guid.NewGuid(), "AM-0147", now, "Etc/UTC", ServedPage.Day, null, null, "east-room");
        served.Store.Add(feed);
        served.Feed.Write(new Agent.Events.FeedEvent(now, "AM-0147", null, null));
        await page.WaitForSelectorAsync("td:has-text('card')");
        var after = served.Weigh("AM-0147", 198.7m, ServedPage.Day, Store.Verdict.Rejected, "already-weighed");
        served.Store.Add(new Store.IntakeRow(Guid.NewGuid(), feed.Id, before.Id, after.Id, now, "Etc/UTC", "east-room", 12_300, 110));
        served.Feed.Write(new Agent.Events.IntakeEvent(now, "AM-0147", 12.3m, 0.11m, 6.6m));
        await page.WaitForSelectorAsync("td:has-text('12.3 g')");
        served.Store.Add(new Store.ObservationRow(Guid.NewGuid(), "AM-0147", now, "Etc/UTC", ServedPage.Day, "listless", "east-room"));
        served.Feed.Write(new Agent.Events.ObservationEvent(now, "AM-0147", "listless"));
        await page.WaitForSelectorAsync("td:has-text('listless')");
        served.Store.Add(new Store.CropMarkRow(Guid.NewGuid(), "AM-0147", now, "Etc/UTC", ServedPage.Day, "east-room"));
        served.Feed.Write(new Agent.Events.CropEvent(now, "AM-0147"));
        await page.WaitForSelectorAsync("td:has-text('crop full when it should be empty')");
    }

    [Fact(Timeout = 600_000)]
    public async Task A_finding_that_follows_its_weighing_reaches_an_open_round()
    {
        await using var browser = await Chromium.StartAsync();
        await using var served = await ServedPage.StartAsync();
        var page = await browser.OpenAsync($"{served.Here}/round");
        served.Weigh("AM-0147", 170.4m, ServedPage.Day);
        served.Tell("AM-0147", 170.4m);
        await page.WaitForSelectorAsync("td:has-text('170.4 g')");

        served.Feed.Write(new Agent.Events.FindingEvent(served.Time.GetUtcNow(), "AM-0147", "loss", "red", "AM-0147: 170.4 g is 4 % less than yesterday.", 170.4m, 186m, 180m, 192m));

        await page.WaitForSelectorAsync("td:has-text('lost weight')");
    }
}
