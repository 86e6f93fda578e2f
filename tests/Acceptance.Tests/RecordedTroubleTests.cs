using CaptureAgent.Acceptance.Tests.Agent;
using CaptureAgent.Acceptance.Tests.Bench;
using Xunit;

namespace CaptureAgent.Acceptance.Tests;

/// <summary>What goes wrong in a round is in its recording too: links, silence, deadlines, cards and odd bytes are decided alike again.</summary>
public sealed class RecordedTroubleTests
{
    [Fact(Timeout = 600_000)]
    public async Task A_round_full_of_trouble_is_replayed_alike()
    {
        using var station = new Station();
        await station.ImportAsync();
        await using var keeper = new Keeper(station);
        await using var agent = new RunningAgent(station.Folder, ["--record", "trouble.ndjson"]);
        await keeper.BeginAsync(agent);

        keeper.Scan("\u00ff\u0000no code");
        Keeper.AssertAccepted(await keeper.WeighAsync(agent, Station.Conure, 58.7), Station.Conure, 58.7, within: 0.3);
        await ReweighAsync(keeper, agent);
        await FallSilentAsync(keeper, agent);
        await LoseAsync(station, agent);
        await LiftUndecidedAsync(keeper, agent);
        Assert.Equal(0, (await agent.TerminateAsync()).Code);

        var replay = await station.DoAsync("replay", "trouble.ndjson", "--register", "register.csv", "--history", "history.csv");
        Assert.True(replay.Code == 0, replay.Error);
        Assert.Equal(agent.Log.All.Where(one => one.Name != "ready").Select(one => one.Line), replay.Lines);
    }

    // The new weight takes the place of today's; then it is taken back.
    private static async Task ReweighAsync(Keeper keeper, RunningAgent agent)
    {
        keeper.Scan("!REWEIGH");
        await Keeper.WaitAsync(0.5);
        var again = await keeper.WeighAsync(agent, Station.Conure, 58.3);
        Keeper.AssertAccepted(again, Station.Conure, 58.3, within: 0.3);
        Assert.NotNull(again.Text("replaces"));

        keeper.Scan("!UNDO");
        var undo = await agent.NextAsync("undo", one => one.Name == "undo");
        Assert.Equal((Station.Conure, "weighing"), (undo.Chick, undo.Text("undone")));
    }

    private static async Task FallSilentAsync(Keeper keeper, RunningAgent agent)
    {
        keeper.Scale.Wire = _ => [];
        await agent.NextAsync("device silent", one => one.IsDevice("scale", "silent"));
        keeper.Scale.Wire = line => line;
        await agent.NextAsync("device up", one => one.IsDevice("scale", "up"));
    }

    private static async Task LoseAsync(Station station, RunningAgent agent)
    {
        station.Scale.Unplug();
        await agent.NextAsync("device down", one => one.IsDevice("scale", "down"));
        station.Scale.Plug();
        await agent.NextAsync("device up", one => one.IsDevice("scale", "up"));
        await Keeper.WaitAsync(3);
    }

    private static async Task LiftUndecidedAsync(Keeper keeper, RunningAgent agent)
    {
        keeper.Scan(Station.Grey);
        await Keeper.WaitAsync(0.5);
        await keeper.PlaceAsync(312.0);
        await keeper.LiftAsync();
        var refused = await agent.NextAsync("weighing", one => one.Name == "weighing");
        Assert.Equal("rejected", refused.Text("verdict"));
        Assert.Contains(Assert.Single(refused.Reasons), (string[])["unsettled", "hand-contact"]);
    }
}
