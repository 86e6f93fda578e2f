using CaptureAgent.Acceptance.Tests.Agent;
using CaptureAgent.Acceptance.Tests.Bench;
using Xunit;

namespace CaptureAgent.Acceptance.Tests;

/// <summary>When <c>run</c> ends, and when it does not.</summary>
public sealed class EndingTests
{
    [Theory(Timeout = 600_000)]
    [InlineData(true)]
    [InlineData(false)]
    public async Task SIGTERM_ends_it_with_0_and_soon_with_and_without_devices(bool plugged)
    {
        // A busy machine delays now and then; a fault delays always.
        var took = TimeSpan.MaxValue;
        for (var tries = 0; tries < 3 && took >= AgentProgram.AllowedToEnd; tries++)
        {
            using var station = new Station();
            await using var agent = new RunningAgent(station.Folder, []);
            await using var keeper = plugged ? new Keeper(station) : null;
            await agent.ReadyAsync();

            (var code, took) = await agent.TerminateAsync();
            Assert.Equal(0, code);
        }

        Assert.True(took < AgentProgram.AllowedToEnd, $"It took {took.TotalSeconds:0.00} s.");
    }

    [Fact(Timeout = 600_000)]
    public async Task A_reader_that_goes_away_does_not_end_the_round()
    {
        using var station = new Station();
        await station.ImportAsync();
        await using var keeper = new Keeper(station);
        await using var agent = new RunningAgent(station.Folder, []);
        await keeper.BeginAsync(agent);

        agent.CloseOutput();
        keeper.Scan(Station.Amazon);
        await keeper.PlaceAsync(186.4);
        await Keeper.WaitAsync(12);
        await keeper.LiftAsync();
        var (code, took) = await agent.TerminateAsync();

        Assert.Equal(0, code);
        Assert.True(took < AgentProgram.AllowedToEnd, $"It took {took.TotalSeconds:0.00} s.");
        var row = Assert.Single(await station.WeightsAsync(), row => row["date"] == station.Day(0));
        Assert.Equal((Station.Amazon, "accepted"), (row["chick"], row["verdict"]));
    }

    [Fact(Timeout = 600_000)]
    public async Task Without_a_listener_it_runs_in_silence()
    {
        using var station = new Station();
        await using var keeper = new Keeper(station);
        await using var agent = new RunningAgent(station.Folder, []);
        await agent.ReadyAsync();
        await Keeper.WaitAsync(1);

        // What is said to people goes to standard error; standard output has events alone.
        Assert.All(agent.Log.All, one => Assert.True(one.Name is "ready" or "device", one.Line));
        Assert.NotEmpty(agent.Errors);
    }
}
