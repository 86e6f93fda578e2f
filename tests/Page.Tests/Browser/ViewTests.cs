using CaptureAgent.Agent.Events;
using CaptureAgent.Page.Tests.Support;
using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using Xunit;

namespace CaptureAgent.Page.Tests.Browser;

/// <summary>Each view in each light on a tablet and on a phone: drawn, kept as a picture, and without a finding of axe-core 4 (rules for WCAG 2.0 to 2.2, A and AA).</summary>
public sealed class ViewTests
{
    private static readonly string[] Rules = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

    private static readonly (string Name, string Path, string Shows)[] Views =
    [
        ("now", "/", ".now .number"), ("round", "/round", "table"), ("chick", "/chick/AM-0147", "svg.chart"), ("batch", "/batch", ".clock"),
        ("instruments", "/instruments", "table"), ("register", "/register", "table"),
    ];

    [Theory(Timeout = 600_000)]
    [InlineData("light", false, "en")]
    [InlineData("dark", false, "en")]
    [InlineData("red", false, "en")]
    [InlineData("light", true, "en")]
    [InlineData("dark", true, "en")]
    [InlineData("light", true, "es")]
    [InlineData("dark", false, "es")]
    public async Task No_view_has_a_finding(string light, bool isPhone, string language)
    {
        await using var browser = await Chromium.StartAsync();
        await using var served = await ServedPage.StartAsync();
        Fill(served);
        var findings = new List<string>();
        foreach (var (name, path, shows) in Views)
        {
            var page = await browser.OpenAsync($"{served.Here}{path}?light={light}&language={language}", isPhone);
            await page.WaitForSelectorAsync(shows);
            await Chromium.KeepAsync(page, $"{name}-{light}{(isPhone ? "-phone" : "")}{(language == "en" ? "" : $"-{language}")}");
            foreach (var fold in await page.QuerySelectorAllAsync("summary"))
                await fold.ClickAsync();
            var result = await page.RunAxe(new AxeRunOptions { RunOnly = new RunOnlyOptions { Type = "tag", Values = [.. Rules] } });
            Assert.NotEmpty(result.Passes);
            findings.AddRange(result.Violations.SelectMany(each => each.Nodes.Select(node => $"{name}: {each.Id}: {node.Html}")));
            Assert.True(await page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= innerWidth"), $"{name} is wider than the screen");
            await page.Context.CloseAsync();
        }

        Assert.Empty(findings);
    }

    [Fact(Timeout = 600_000)]
    public async Task Every_view_is_reached_from_now_by_keyboard_alone_and_the_light_is_kept()
    {
        await using var browser = await Chromium.StartAsync();
        await using var served = await ServedPage.StartAsync();
        Fill(served);
        var page = await browser.OpenAsync($"{served.Here}/?light=red");
        await page.WaitForSelectorAsync(".now .number");
        Assert.Equal("red", await page.EvaluateAsync<string>("document.documentElement.dataset.light"));

        foreach (var path in (string[])["/round", "/batch", "/instruments", "/register"])
        {
            await FollowAsync(page, path);
            Assert.Equal("red", await page.EvaluateAsync<string>("document.documentElement.dataset.light"));
        }

        await page.ClickAsync("text=AM-0147");
        await page.WaitForURLAsync("**/chick/AM-0147");
    }

    // A view that is just being drawn may take the focus once more.
    private static async Task FollowAsync(IPage page, string path)
    {
        for (var tries = 1; ; tries++)
        {
            await page.PressAsync($"nav a[href='{path}']", "Enter");
            try
            {
                await page.WaitForURLAsync($"**{path}", new PageWaitForURLOptions { Timeout = 30_000, WaitUntil = WaitUntilState.DOMContentLoaded });
                return;
            }
            catch (TimeoutException) when (tries < 4)
            {
            }
        }
    }

    [Fact(Timeout = 600_000)]
    public async Task A_weight_is_corrected_on_the_page_and_units_and_words_can_be_chosen()
    {
        await using var browser = await Chromium.StartAsync();
        await using var served = await ServedPage.StartAsync();
        served.Weigh("AM-0147", 168.4m, ServedPage.Day);
        var page = await browser.OpenAsync($"{served.Here}/chick/AM-0147");
        await page.ClickAsync("button[aria-label='Correct 168.4 g of 2026-03-02']");
        await page.FillAsync("dialog input[name=grams]", "186.4");
        await page.FillAsync("dialog input[name=reason]", "digits were exchanged");
        await page.ClickAsync("dialog button.chief");
        await page.WaitForSelectorAsync("text=by station");
        Assert.Equal(186_400, Assert.Single(served.Store.Weighings("AM-0147", ServedPage.Day)).Milligrams);

        // 186.4 g / 28.349523125 g = 6.575 oz (avoirdupois ounce: NIST Handbook 44, appendix C).
        await page.SelectOptionAsync("select[name=mass]", "oz");
        await page.WaitForSelectorAsync("text=6.575 oz");
        await page.SelectOptionAsync("select[name=language]", "es");
        await page.WaitForSelectorAsync("h2:has-text('Pesos')");
        Assert.Equal("es", await page.EvaluateAsync<string>("document.documentElement.lang"));
    }

    [Fact(Timeout = 600_000)]
    public async Task A_Spanish_keeper_sees_alerts_findings_and_remedies_in_Spanish()
    {
        await using var browser = await Chromium.StartAsync();
        await using var served = await ServedPage.StartAsync();
        Fill(served);
        served.Feed.Write(new AlertEvent(served.Time.GetUtcNow(), "lost", "AM-0147", null, "There is no room to keep the accepted weighing of AM-0147, 186.4 g.") { Grams = 186.4m });
        served.Tell("CN-0321", 58.7m, "rejected", "hand-contact");
        var page = await browser.OpenAsync($"{served.Here}/?language=es");
        await page.WaitForSelectorAsync("[data-step=refused]");
        await Chromium.KeepAsync(page, "now-refused-es");
        var words = await page.InnerTextAsync("main");

        foreach (var said in (string[])["No anotado", "Quite del todo la mano", "había una mano", "¡Rojo! CN-0321: perdió peso", "58,7 g; se esperaba 62,5 g (de 60,9 g a 64,1 g)", "anótelo: 186,4 g", "AM-0147: mire el paño y la balanza", "Dar de comer: GR-0096", "Lavar"])
            Assert.Contains(said, words, StringComparison.Ordinal);
        foreach (var english in (string[])["weigh", "liner", "There is no room", "expected", "due"])
            Assert.DoesNotContain(english, words, StringComparison.OrdinalIgnoreCase);
        Assert.Equal("es", await page.EvaluateAsync<string>("document.documentElement.lang"));
    }

    [Fact(Timeout = 600_000)]
    public async Task Cards_are_downloaded_from_the_register_and_from_a_chick()
    {
        await using var browser = await Chromium.StartAsync();
        await using var served = await ServedPage.StartAsync();
        var page = await browser.OpenAsync($"{served.Here}/register");
        await page.ClickAsync("summary:has-text('Print cards')");
        await page.CheckAsync("input[name=cards]");
        var all = await page.RunAndWaitForDownloadAsync(() => page.ClickAsync("button:has-text('Make the PDF')"));
        Assert.Equal("labels.pdf", all.SuggestedFilename);
        await page.GotoAsync($"{served.Here}/chick/AM-0147");
        var one = await page.RunAndWaitForDownloadAsync(() => page.ClickAsync("button:has-text('Print its card')"));

        Assert.Equal("AM-0147.pdf", one.SuggestedFilename);
        using var pdf = UglyToad.PdfPig.PdfDocument.Open(await File.ReadAllBytesAsync((await one.PathAsync())!, TestContext.Current.CancellationToken));
        Assert.Contains("AM-0147", pdf.GetPage(1).Text, StringComparison.Ordinal);
        using var sheet = UglyToad.PdfPig.PdfDocument.Open(await File.ReadAllBytesAsync((await all.PathAsync())!, TestContext.Current.CancellationToken));
        Assert.True(sheet.NumberOfPages > 1);
    }

    [Fact(Timeout = 600_000)]
    public async Task What_is_wrong_is_said_in_the_language_of_the_page()
    {
        await using var browser = await Chromium.StartAsync();
        await using var served = await ServedPage.StartAsync();
        Fill(served);
        var page = await browser.OpenAsync($"{served.Here}/instruments?language=es");
        await page.WaitForSelectorAsync("table");
        Assert.Contains("Se ha perdido.", await page.InnerTextAsync("td .bad"), StringComparison.Ordinal);
        Assert.Equal(0, await page.Locator("main [lang=en]").CountAsync());

        await page.GotoAsync($"{served.Here}/register");
        await page.ClickAsync("summary");
        await page.FillAsync("input[name=code]", "AM-0147");
        await page.ClickAsync("button.chief");
        // A function: an expression would be evaluated again in the page, which its policy forbids.
        await page.WaitForFunctionAsync("() => document.querySelector('main .said').textContent === 'El registro ya tiene este pollo.'");
    }

    [Fact(Timeout = 600_000)]
    public async Task A_device_from_afar_pairs_with_a_code()
    {
        await using var browser = await Chromium.StartAsync();
        await using var served = await ServedPage.StartAsync();
        Assert.SkipWhen(served.FromAfar is null, "This computer has no network address but the loopback.");
        using var here = served.Client();
        var code = (await ServedPage.PostAsync(here, "/api/v1/pairing/codes", new { role = "look" })).GetProperty("code").GetString()!;
        var page = await browser.OpenAsync($"{served.FromAfar}/chick/AM-0147");
        await page.FillAsync("input[name=code]", code);
        await page.FillAsync("input[name=name]", "tablet by the door");
        await page.ClickAsync("button.chief");

        await page.WaitForSelectorAsync("svg.chart");
        Assert.Equal(0, await page.Locator("main button").CountAsync());
        Assert.DoesNotContain("token", page.Url, StringComparison.OrdinalIgnoreCase);
    }

    private static void Fill(ServedPage served)
    {
        var now = served.Time.GetUtcNow();
        var weighed = served.Weigh("AM-0147", 186.4m, ServedPage.Day);
        var again = served.Weigh("AM-0147", 198.7m, ServedPage.Day, Store.Verdict.Rejected, "already-weighed");
        served.Weigh("CN-0321", 58.7m, ServedPage.Day, Store.Verdict.Rejected, "hand-contact");
        served.Feed.Write(new ProbeEvent(now, "probe", 40.1m, 0.2m, false, 39.8m));
        served.Feed.Write(new ProbeEvent(now.AddSeconds(20), "probe", 39.8m, 0.2m, true, 39.8m));
        served.Feed.Write(new BatchEvent(now.AddSeconds(20), 3, "in-range", 39.8m, now.AddMinutes(60), now.AddMinutes(9)));
        served.Feed.Write(new DeviceEvent(now, "scanner", "down", "It was unplugged: plug it in again.", "lost"));
        var feed = new Store.FeedRow(Guid.NewGuid(), "AM-0147", now.AddHours(-3), "Etc/UTC", ServedPage.Day, 3, "in-range", "east-room");
        served.Store.Add(feed);
        served.Store.Add(new Store.IntakeRow(Guid.NewGuid(), feed.Id, weighed.Id, again.Id, now.AddHours(-3), "Etc/UTC", "east-room", 12_300, 110));
        served.Store.Add(new Store.ObservationRow(Guid.NewGuid(), "AM-0147", now.AddHours(-3), "Etc/UTC", ServedPage.Day, "crop-smooth", "east-room"));
        served.Store.Add(new Store.CropMarkRow(Guid.NewGuid(), "AM-0147", now.AddHours(-20), "Etc/UTC", ServedPage.Day.AddDays(-1), "east-room"));
        served.Feed.Write(new DueEvent(now, "feed", "GR-0096", now, "GR-0096 is due: 3.0 h since its last feed."));
        served.Feed.Write(new DueEvent(now, "wash", null, now, "Wash the instruments."));
        served.Feed.Write(new FindingEvent(now, "CN-0321", "loss", "red", "CN-0321: 58.7 g is 4.2 % less than yesterday; 62.5 g was expected (60.9 to 64.1).", 58.7m, 62.5m, 60.9m, 64.1m));
        served.Feed.Write(new AlertEvent(now, "look", "AM-0147", "scale", "AM-0147: the liner weighs 0.9 g more than before."));
        served.Tell("AM-0147", 186.4m);
    }
}
