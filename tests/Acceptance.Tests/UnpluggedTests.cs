using CaptureAgent.Acceptance.Tests.Agent;
using CaptureAgent.Acceptance.Tests.Bench;
using Xunit;

namespace CaptureAgent.Acceptance.Tests;

/// <summary>The scale's plug is pulled and put back under the same path: one event down, one up, and never a wrong weight.</summary>
public sealed class UnpluggedTests
{
    [Fact(Timeout = 600_000)]
    public async Task Pulled_at_rest_the_round_goes_on()
    {
        using var station = new Station();
        await station.ImportAsync();
        await using var keeper = new Keeper(station);
        await using var agent = new RunningAgent(station.Folder, []);
        await keeper.BeginAsync(agent);

        await PullAsync(station, agent, seconds: 3);

        Keeper.AssertAccepted(await keeper.WeighAsync(agent, Station.Amazon, 186.4), Station.Amazon, 186.4, within: 0.6);
        AssertOneOutage(agent);
    }

    [Fact(Timeout = 600_000)]
    public async Task Pulled_under_a_chick_it_weighs_right_or_refuses_and_the_next_is_weighed()
    {
        using var station = new Station();
        await station.ImportAsync();
        await using var keeper = new Keeper(station);
        await using var agent = new RunningAgent(station.Folder, []);
        await keeper.BeginAsync(agent);

        keeper.Scan(Station.Amazon);
        await keeper.PlaceAsync(186.4);
        await agent.NextAsync("placed", one => one.Name == "placed");
        await Keeper.WaitAsync(1);
        await PullAsync(station, agent, seconds: 2);

        // On a busy machine that second is long enough for an answer before the plug is pulled.
        var first = agent.Log.Weighings is [var early, ..] ? early : await agent.NextAsync("weighing", one => one.Name == "weighing");
        await keeper.LiftAsync();

        if (first.Text("verdict") == "accepted")
            Keeper.AssertAccepted(first, Station.Amazon, 186.4, within: 0.6);
        else
            Assert.Equal(["link-lost"], first.Reasons);
        Keeper.AssertAccepted(await keeper.WeighAsync(agent, Station.Conure, 58.7), Station.Conure, 58.7, within: 0.3);
        Assert.Equal(2, agent.Log.Weighings.Count);
        AssertOneOutage(agent);
    }

    [Fact(Timeout = 600_000)]
    public async Task Pulled_while_the_chick_is_lifted_the_next_chick_gets_its_own_weight()
    {
        using var station = new Station();
        await station.ImportAsync();
        await using var keeper = new Keeper(station);
        await using var agent = new RunningAgent(station.Folder, []);
        await keeper.BeginAsync(agent);

        keeper.Scan(Station.Amazon);
        await keeper.PlaceAsync(186.4);
        await agent.NextAsync("placed", one => one.Name == "placed");
        station.Scale.Unplug();
        await agent.NextAsync("device down", one => one.IsDevice("scale", "down"));
        await keeper.LiftAsync();
        await keeper.PlaceAsync(58.7);
        station.Scale.Plug();
        await agent.NextAsync("device up", one => one.IsDevice("scale", "up"));
        await Keeper.WaitAsync(12);
        await keeper.LiftAsync();
        await Keeper.WaitAsync(2);

        // Another animal lies there under the first one's code: nobody can have seen that, but it cannot weigh this.
        Assert.DoesNotContain(agent.Log.Weighings, weighing => weighing.Text("verdict") == "accepted");
        agent.Log.PassOver();
        Keeper.AssertAccepted(await keeper.WeighAsync(agent, Station.Grey, 312.0), Station.Grey, 312.0, within: 1);
    }

    private static async Task PullAsync(Station station, RunningAgent agent, double seconds)
    {
        station.Scale.Unplug();
        var down = await agent.NextAsync("device down", one => one.IsDevice("scale", "down"));
        Assert.Contains(station.Scale.Path, down.Text("detail"), StringComparison.Ordinal);
        await Keeper.WaitAsync(seconds);
        station.Scale.Plug();
        await agent.NextAsync("device up", one => one.IsDevice("scale", "up"));
    }

    private static void AssertOneOutage(RunningAgent agent)
    {
        var states = agent.Log.All.Where(one => one.Name == "device" && one.Text("device") == "scale").Select(one => one.Text("state"));
        Assert.Equal(["up", "down", "up"], states);
    }
}
