using CaptureAgent.Page.Tests.Support;
using CaptureAgent.Simulators.Nursery.Round;
using CaptureAgent.Simulators.Nursery.Watching;
using Microsoft.Playwright;
using Xunit;

namespace CaptureAgent.Page.Tests.Browser;

/// <summary>The built agent, the demo's simulated instruments and its keeper: what the page shows and the loudspeaker plays of a short round.</summary>
public sealed class RealRoundTests
{
    /// <summary>Notes each state as the page shows it: the state, the code, the number.</summary>
    private const string Watching = """
        () => {
          const view = document.querySelector('.now'), text = part => { const node = view.querySelector(part); return node.hidden ? '' : node.textContent; };
          window.shown = [];
          const look = () => { const line = [view.dataset.step, text('.code'), text('.number')].filter(Boolean).join(' '); if (window.shown.at(-1) !== line) window.shown.push(line); };
          new MutationObserver(look).observe(view, { attributes: true, childList: true, subtree: true, characterData: true });
          look();
        }
        """;

    [Fact(Timeout = 600_000)]
    public async Task A_round_is_seen_and_heard_in_the_order_in_which_it_is_told()
    {
        Assert.SkipUnless(RecordedTones.CanRecord, "SKIPPED: no aplay. Install it: apt-get install -y --no-install-recommends alsa-utils");
        await using var browser = await Chromium.StartAsync();
        await using var station = await LiveStation.StartAsync();
        var page = await browser.OpenAsync(station.Address);
        await page.WaitForSelectorAsync("[data-step]");
        await page.EvaluateAsync(Watching);

        await station.Keeper.LayTowelAsync(8.2, TestContext.Current.CancellationToken);
        station.Keeper.Scan("!FED");
        await station.Keeper.PauseAsync(1.5, TestContext.Current.CancellationToken);
        station.Keeper.Scan("LB-0078");
        await station.Keeper.PauseAsync(1.5, TestContext.Current.CancellationToken);
        var first = await station.WeighAsync("LB-0077");
        await Chromium.KeepAsync(page, "round-accepted");
        var fed = await station.WeighAsync("LB-0078", fullness: 1.09);
        await Chromium.KeepAsync(page, "round-refused");
        var nameless = await station.WeighAsync("CK-0410", new Manner { Code = CodeTime.Never });
        await page.WaitForSelectorAsync("[data-step=refused] .more:has-text('no code')");

        Assert.True(first.IsAccepted);
        Assert.Equal(["after-feed"], fed.Reasons);
        Assert.Equal(["no-code"], nameless.Reasons);
        // What was told, as the page should have shown it, in order; and what a keeper should have heard.
        var shown = await page.EvaluateAsync<string[]>("window.shown");
        Assert.Equal(Decisions(station.Log), shown.Where(line => line.Split(' ')[0] is "accepted" or "refused" or "fed"));
        Assert.Equal(["scanned LB-0077", "weighing LB-0077", FormattableString.Invariant($"accepted LB-0077 {first.Grams:0.0}g")], shown.SkipWhile(line => line != "scanned LB-0077").Take(3));
        await station.Keeper.PauseAsync(2, TestContext.Current.CancellationToken);
        var played = station.Tones.Played();
        Assert.Equal("heard", played[0]);
        Assert.Equal(["got-it", "got-it", "refused", "refused"], played.Where(tone => tone is "got-it" or "refused"));
        // The feed was from a batch that nobody had measured.
        Assert.Contains("urgent", played);
        Assert.DoesNotContain("unknown", played);
    }

    [Fact(Timeout = 600_000)]
    public async Task A_page_outlives_a_reload_in_mid_weighing_and_an_agent_that_is_killed()
    {
        await using var browser = await Chromium.StartAsync();
        await using var station = await LiveStation.StartAsync();
        var (now, round) = (await browser.OpenAsync(station.Address), await browser.OpenAsync($"{station.Address}/round"));
        await station.Keeper.LayTowelAsync(8.2, TestContext.Current.CancellationToken);
        await now.EvaluateAsync(Watching);

        var going = station.WeighAsync("CK-0410");
        // Noted by the page itself: a browser that is short of processor may be asked too late.
        await now.WaitForFunctionAsync("() => window.shown.some(line => line.startsWith('weighing'))");
        await now.ReloadAsync();
        var before = await going;
        Assert.True(before.IsAccepted);
        await ShowsAsync(now, round, before, done: 1);

        await station.KillAgentAsync();
        foreach (var page in (IPage[])[now, round])
            await page.WaitForSelectorAsync("#link:not([hidden])");
        await Chromium.KeepAsync(now, "agent-killed");
        await station.StartAgentAsync();
        foreach (var page in (IPage[])[now, round])
            await page.WaitForSelectorAsync("#link[hidden]", new() { State = WaitForSelectorState.Attached });

        // Nobody touched the pages: they show the new run, and what the old one had stored.
        await now.WaitForSelectorAsync("[data-step=tared], [data-step=start]");
        Assert.Equal("1", await round.TextContentAsync(".counts li:first-child b"));
        // One that has lost weight is red in the round, and still is after another restart.
        var loser = await station.WeighAsync("CN-0322");
        Assert.True(loser.IsAccepted);
        await round.WaitForSelectorAsync("tr:has-text('CN-0322'):has-text('lost weight')");
        await station.KillAgentAsync();
        await station.StartAgentAsync();
        await round.ReloadAsync();
        await round.WaitForSelectorAsync("tr:has-text('CN-0322'):has-text('lost weight')");
        var after = await station.WeighAsync("AM-0148");
        Assert.True(after.IsAccepted);
        await ShowsAsync(now, round, after, done: 3);
    }

    private static async Task ShowsAsync(IPage now, IPage round, AgentEvent weighing, int done)
    {
        await now.WaitForSelectorAsync($"[data-step=accepted] .code:has-text('{weighing.Chick}')");
        Assert.Equal(FormattableString.Invariant($"{weighing.Grams:0.0}g"), await now.TextContentAsync(".now .number"));
        await round.WaitForSelectorAsync($".counts li:first-child b:has-text('{done}')");
        await round.WaitForSelectorAsync(FormattableString.Invariant($"tr:has-text('{weighing.Chick}'):has-text('{weighing.Grams:0.0} g')"));
    }

    private static List<string> Decisions(EventLog log)
    {
        List<string> told = [];
        foreach (var one in log.All)
        {
            if (one.Name == "feed")
                told.Add($"fed {one.Chick}");
            else if (one.Name == "weighing")
                told.Add(FormattableString.Invariant($"{(one.IsAccepted ? "accepted" : "refused")} {one.Chick} {one.Grams:0.0}g").Replace("  ", " ", StringComparison.Ordinal));
        }

        return told;
    }
}
