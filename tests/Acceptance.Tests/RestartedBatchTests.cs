using System.Globalization;
using CaptureAgent.Acceptance.Tests.Agent;
using CaptureAgent.Acceptance.Tests.Bench;
using Xunit;

namespace CaptureAgent.Acceptance.Tests;

/// <summary>Killed in the middle of a batch and started again: its clock goes on, and it is not in range until it was measured again.</summary>
public sealed class RestartedBatchTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(120);

    [Fact(Timeout = 600_000)]
    public async Task A_batch_goes_on_where_it_was_and_is_measured_anew()
    {
        using var station = new Station();
        await using var probe = new BenchProbe(station.AddProbe());
        AgentEvent before;
        await using (var agent = new RunningAgent(station.Folder, [], whenRead: KillInRange))
        {
            await agent.ReadyAsync();
            await Keeper.WaitAsync(5);
            probe.Around = 39.8;
            before = await agent.Log.NextAsync("batch in range", one => IsBatch(one, "in-range"), Patience);
            await agent.EndAsync();
        }

        await using (var again = new RunningAgent(station.Folder, []))
        {
            await again.ReadyAsync();
            var resumed = await again.Log.NextAsync("batch", one => one.Name == "batch", Patience);
            Assert.Equal("unmeasured", resumed.Text("state"));
            var after = await again.Log.NextAsync("batch in range", one => IsBatch(one, "in-range"), Patience);
            foreach (var told in again.Log.All.Where(one => one.Name == "batch"))
                Assert.Equal((before.Number("batch"), Millisecond(before, "discardAt"), Millisecond(before, "mixedAt")), (told.Number("batch"), Millisecond(told, "discardAt"), Millisecond(told, "mixedAt")));
            Assert.Contains(again.Log.All, one => IsBatch(one, "one-reading"));
            Assert.Equal(0, (await again.TerminateAsync()).Code);
            Assert.True(after.At > before.At);
        }
    }

    private static void KillInRange(AgentEvent one, RunningAgent agent)
    {
        if (IsBatch(one, "in-range"))
            agent.Kill();
    }

    // The record keeps a microsecond, a live event has more.
    private static string Millisecond(AgentEvent one, string key) =>
        DateTimeOffset.Parse(one.Text(key)!, CultureInfo.InvariantCulture).ToString("yyyy-MM-ddTHH:mm:ss.fff", CultureInfo.InvariantCulture);

    private static bool IsBatch(AgentEvent one, string state) => one.Name == "batch" && one.Text("state") == state;
}
