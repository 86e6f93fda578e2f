using CaptureAgent.Acceptance.Tests.Agent;
using CaptureAgent.Acceptance.Tests.Bench;
using Xunit;

namespace CaptureAgent.Acceptance.Tests;

/// <summary>A whole small round, live: what is told is what is stored, and what a replay of its recording tells again.</summary>
public sealed class MorningRoundTests
{
    [Fact(Timeout = 600_000)]
    public async Task A_small_round_is_weighed_told_stored_and_replayed_alike()
    {
        using var station = new Station();
        await station.ImportAsync();
        await using var keeper = new Keeper(station);
        await using var agent = new RunningAgent(station.Folder, ["--record", "morning.ndjson"]);
        await keeper.BeginAsync(agent);

        Keeper.AssertAccepted(await CodeBeforeAsync(keeper, agent), Station.Amazon, 186.4, within: 0.6);
        Keeper.AssertAccepted(await CodeAfterAsync(keeper, agent), Station.Conure, 58.7, within: 0.3);
        await FeedAsync(keeper, agent);
        Keeper.AssertAccepted(await keeper.WeighAsync(agent, Station.Grey, 312.0), Station.Grey, 312.0, within: 1);
        AssertRefused(await keeper.WeighAsync(agent, Station.Amazon, 204.9));
        var (code, took) = await agent.TerminateAsync();

        Assert.Equal(0, code);
        Assert.True(took < AgentProgram.AllowedToEnd, $"SIGTERM took {took.TotalSeconds:0.00} s");
        Assert.Equal("""{"event":"ready"}""", agent.Log.All[0].Line);
        await AssertStoredAsync(station, agent.Log.Weighings);
        await AssertReplayedAlikeAsync(station, agent.Log.All);
    }

    private static async Task<AgentEvent> CodeBeforeAsync(Keeper keeper, RunningAgent agent)
    {
        keeper.Scan(Station.Amazon);
        await agent.NextAsync("scan", one => one.Name == "scan" && one.Text("code") == Station.Amazon);
        await keeper.PlaceAsync(186.4);
        await agent.NextAsync("placed", one => one.Name == "placed");
        var weighing = await agent.NextAsync("weighing", one => one.Name == "weighing");
        Assert.Equal(24, weighing.Number("ageDays"));
        Assert.InRange(weighing.Number("tareGrams")!.Value, 8.1m, 8.3m);
        Assert.InRange(weighing.Number("uncertaintyGrams")!.Value, 0.01m, 0.5m);
        Assert.Null(weighing.Text("remedy"));
        Assert.Empty(weighing.Reasons);
        Assert.InRange(weighing.At, DateTimeOffset.UtcNow.AddSeconds(-10), DateTimeOffset.UtcNow);

        // It was decided while the chick lay there: the lift comes after.
        await keeper.LiftAsync();
        await agent.NextAsync("lifted", one => one.Name == "lifted");
        return weighing;
    }

    private static async Task<AgentEvent> CodeAfterAsync(Keeper keeper, RunningAgent agent)
    {
        await keeper.PlaceAsync(58.7);
        await agent.NextAsync("placed", one => one.Name == "placed");
        await Keeper.WaitAsync(2);
        keeper.Scan(Station.Conure);
        var weighing = await agent.NextAsync("weighing", one => one.Name == "weighing");
        Assert.Equal(18, weighing.Number("ageDays"));
        await keeper.LiftAsync();
        return weighing;
    }

    private static async Task FeedAsync(Keeper keeper, RunningAgent agent)
    {
        keeper.Scan("!FED");
        await Keeper.WaitAsync(0.5);
        keeper.Scan(Station.Amazon);
        var feed = await agent.NextAsync("feed", one => one.Name == "feed");
        Assert.Equal(Station.Amazon, feed.Chick);
        Assert.Null(feed.Text("batchState"));
        Assert.Null(feed.Number("batch"));
    }

    private static void AssertRefused(AgentEvent weighing)
    {
        Assert.Equal("rejected", weighing.Text("verdict"));
        Assert.Equal(["after-feed", "already-weighed"], weighing.Reasons);
        Assert.InRange(weighing.Grams, 204.3m, 205.5m);
        Assert.False(string.IsNullOrWhiteSpace(weighing.Text("remedy")));
    }

    private static async Task AssertStoredAsync(Station station, IReadOnlyList<AgentEvent> weighings)
    {
        Assert.Equal(4, weighings.Count);
        foreach (var weighing in weighings)
            await station.HasRowOfAsync(weighing);
        var rows = await station.WeightsAsync();
        Assert.Equal(station.HistoryRows, rows.Where(row => row["date"] != station.Day(0)).Select(row => $"{row["chick"]},{row["date"]},{row["grams"]}"));
        Assert.Equal(4, rows.Count(row => row["date"] == station.Day(0)));
    }

    // Nothing but the moment at which a late commit was made may differ.
    private static async Task AssertReplayedAlikeAsync(Station station, IReadOnlyList<AgentEvent> live)
    {
        var replay = await station.DoAsync("replay", "morning.ndjson", "--register", "register.csv", "--history", "history.csv");
        Assert.True(replay.Code == 0, replay.Error);
        Assert.DoesNotContain(live, one => one.Has("storedAt"));
        Assert.Equal(live.Where(one => one.Name != "ready").Select(one => one.Line), replay.Lines);
    }
}
