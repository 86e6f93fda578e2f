using CaptureAgent.Acceptance.Tests.Agent;
using CaptureAgent.Acceptance.Tests.Bench;
using Xunit;

namespace CaptureAgent.Acceptance.Tests;

/// <summary>The tone means it is on disk: an agent that is killed the moment its event is read has stored it.</summary>
public sealed class KilledTests
{
    [Fact(Timeout = 600_000)]
    public async Task Killed_the_moment_an_accepted_weighing_is_read_it_is_in_the_file()
    {
        using var station = new Station();
        await station.ImportAsync();
        await using var keeper = new Keeper(station);
        (string Chick, double Grams)[] round = [(Station.Amazon, 186.4), (Station.Conure, 58.7), (Station.Grey, 312.0)];
        List<AgentEvent> told = [];
        foreach (var (chick, grams) in round)
        {
            await using var agent = new RunningAgent(station.Folder, [], whenRead: KillAtWeighing);
            if (told.Count == 0)
                await keeper.BeginAsync(agent);
            else
                await FindTowelAsync(agent);
            var weighing = await keeper.WeighAsync(agent, chick, grams);
            Keeper.AssertAccepted(weighing, chick, grams, within: 1);
            await agent.EndAsync();
            told.Add(weighing);

            // The agent is gone; every weighing that it told, and those of the runs before, is there once.
            foreach (var one in told)
                await station.HasRowOfAsync(one);
            Assert.Equal(told.Count, (await station.WeightsAsync()).Count(row => row["date"] == station.Day(0)));
        }
    }

    private static void KillAtWeighing(AgentEvent one, RunningAgent agent)
    {
        if (one.Name == "weighing")
            agent.Kill();
    }

    // What lies still on the pan at the start is the liner.
    private static async Task FindTowelAsync(RunningAgent agent)
    {
        await agent.ReadyAsync();
        Assert.InRange((await agent.NextAsync("tare", one => one.Name == "tare")).Grams, 8.1m, 8.3m);
    }
}
