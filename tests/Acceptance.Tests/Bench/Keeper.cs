using System.Text;
using CaptureAgent.Acceptance.Tests.Agent;
using Xunit;

namespace CaptureAgent.Acceptance.Tests.Bench;

/// <summary>Who weighs: lays the towel, scans, lays the chick down, waits for the answer, lifts it. Starts with a bare pan.</summary>
internal sealed class Keeper : IAsyncDisposable
{
    private const double Towel = 8.2, Lively = 0.3;

    private readonly Station station;
    private double liner;

    public Keeper(Station station)
    {
        this.station = station;
        station.Scale.Plug();
        station.Scanner.Plug();
        Scale = new BenchScale(station.Scale);
    }

    public BenchScale Scale { get; }

    /// <summary>Waits until the agent hears the scale; then lays the towel on it.</summary>
    public async Task BeginAsync(RunningAgent agent)
    {
        await agent.ReadyAsync();
        // Some lines of the bare pan, so that what comes next is seen to come.
        await WaitAsync(2.5);
        Scale.Load(liner = Towel, 0, Seconds(0.3));
        var tare = await agent.NextAsync("tare", one => one.Name == "tare");
        Assert.InRange(tare.Grams, 8.1m, 8.3m);
    }

    public void Scan(string code) => station.Scanner.Send(Encoding.Latin1.GetBytes(code + "\r"));

    /// <summary>Lowers the chick, lets a hand carry some of it for a second, lets go.</summary>
    public async Task PlaceAsync(double grams)
    {
        Scale.Load(liner + 0.85 * grams, Lively, Seconds(0.4));
        await WaitAsync(1.4);
        Scale.Load(liner + grams, Lively, Seconds(0.2));
    }

    public async Task LiftAsync()
    {
        Scale.Load(liner, 0, Seconds(0.3));
        await WaitAsync(2);
    }

    /// <summary>One weighing with the code scanned before, from the scan to the lift.</summary>
    public async Task<AgentEvent> WeighAsync(RunningAgent agent, string chick, double grams)
    {
        Scan(chick);
        await WaitAsync(0.5);
        await PlaceAsync(grams);
        var weighing = await agent.NextAsync($"weighing of {chick}", one => one.Name == "weighing");
        Assert.Equal(chick, weighing.Chick);
        await LiftAsync();
        return weighing;
    }

    /// <summary>Accepted, and within so many grams of the truth.</summary>
    public static void AssertAccepted(AgentEvent weighing, string chick, double grams, double within)
    {
        Assert.True(weighing.IsWeighingOf(chick) && weighing.Text("verdict") == "accepted", weighing.Line);
        Assert.InRange((double)weighing.Grams, grams - within, grams + within);
    }

    public static Task WaitAsync(double seconds) => Task.Delay(Seconds(seconds), TestContext.Current.CancellationToken);

    public ValueTask DisposeAsync() => Scale.DisposeAsync();

    private static TimeSpan Seconds(double seconds) => TimeSpan.FromSeconds(seconds);
}
