using CaptureAgent.Acceptance.Tests.Agent;
using CaptureAgent.Acceptance.Tests.Bench;
using Microsoft.Data.Sqlite;
using Xunit;

namespace CaptureAgent.Acceptance.Tests;

/// <summary>A store that cannot be written in the middle of the round: it is said, nothing is told as stored, and nothing is lost.</summary>
public sealed class StoreTroubleTests
{
    /// <summary>With SIGXFSZ ignored, a write beyond the limit fails as on a full disk, instead of ending the process (setrlimit(2)).</summary>
    private static readonly string[] SurvivesLimits = ["sh", "-c", "trap '' XFSZ; exec \"$0\" \"$@\""];

    [Fact(Timeout = 600_000)]
    public async Task A_disk_without_room_is_said_and_what_waited_is_stored_when_there_is_room()
    {
        using var station = new Station();
        await station.ImportAsync();
        await using var keeper = new Keeper(station);
        await using var agent = new RunningAgent(station.Folder, [], SurvivesLimits);
        await keeper.BeginAsync(agent);
        await station.HasRowOfAsync(await keeper.WeighAsync(agent, Station.Amazon, 186.4));

        Libc.LimitFileSizeOf(agent.Id, bytes: 0);
        var decided = await NotStoredAsync(keeper, agent);
        await Keeper.WaitAsync(2);
        Assert.Single(agent.Log.Weighings);

        Libc.LimitFileSizeOf(agent.Id, bytes: null);
        await AssertStoredLateAsync(station, agent, decided);
    }

    [Fact(Timeout = 600_000)]
    public async Task A_file_that_another_program_locks_is_said_and_what_waited_is_stored_when_it_is_free()
    {
        using var station = new Station();
        await station.ImportAsync();
        await using var keeper = new Keeper(station);
        await using var agent = new RunningAgent(station.Folder, []);
        await keeper.BeginAsync(agent);

        AgentEvent decided;
        await using (var other = new SqliteConnection($"Data Source={station.File("capture.db")};Pooling=False"))
        {
            await other.OpenAsync(TestContext.Current.CancellationToken);
            await using var holding = other.BeginTransaction(deferred: false);
            decided = await NotStoredAsync(keeper, agent);
            Assert.Empty(agent.Log.Weighings);
        }

        await AssertStoredLateAsync(station, agent, decided);
    }

    private static async Task<AgentEvent> NotStoredAsync(Keeper keeper, RunningAgent agent)
    {
        keeper.Scan(Station.Conure);
        await keeper.PlaceAsync(58.7);
        var alert = await agent.NextAsync("alert", one => one.Name == "alert");
        Assert.Equal("not-stored", alert.Text("alert"));
        Assert.Equal(Station.Conure, alert.Chick);
        Assert.False(string.IsNullOrWhiteSpace(alert.Text("text")));
        await keeper.LiftAsync();
        return alert;
    }

    private static async Task AssertStoredLateAsync(Station station, RunningAgent agent, AgentEvent decided)
    {
        var late = await agent.NextAsync("weighing stored late", one => one.Name == "weighing");
        Keeper.AssertAccepted(late, Station.Conure, 58.7, within: 0.3);
        Assert.Equal(decided.At, late.At);
        Assert.True(late.Fields.GetProperty("storedAt").GetDateTimeOffset() > late.At);
        await station.HasRowOfAsync(late);
    }
}
