using CaptureAgent.Benchmarks.Driving;
using CaptureAgent.Simulators.Bluetooth;
using CaptureAgent.Simulators.Bluetooth.Bus;

namespace CaptureAgent.Benchmarks.Radio;

/// <summary>What the agent costs while two radio devices say that nothing happens. The nursery is played by this program as another process.</summary>
internal sealed record RadioIdle(double AgentPercent, double HostPercent)
{
    /// <summary>The word with which this program plays the nursery.</summary>
    public const string NurseryName = "radio-nursery";

    public const double Seconds = 60;

    private const string BusVariable = "DBUS_SYSTEM_BUS_ADDRESS";

    private static readonly TimeSpan Settling = TimeSpan.FromSeconds(20);

    /// <param name="native">A natively compiled capture-agent; null: the managed one.</param>
    public static RadioIdle Measure(string? native)
    {
        using var bus = new PrivateBus();
        // Handed on to the processes that are started from here.
        Environment.SetEnvironmentVariable(BusVariable, bus.Address);
        var folder = Directory.CreateTempSubdirectory("capture-agent-radio-").FullName;
        File.WriteAllText(Path.Combine(folder, "station.json"), $$"""
            { "page": { "listen": "http://127.0.0.1:0" },
              "devices": [
              { "id": "scale", "role": "scale", "dialect": "header-comma", "divisionGrams": 0.1, "frame": { "service": "fff0", "characteristic": "fff1" },
                "connection": { "kind": "bluetooth", "address": "{{PlayedNursery.ScaleAddress}}" } },
              { "id": "probe", "role": "probe", "dialect": "health-thermometer", "connection": { "kind": "bluetooth", "address": "{{PlayedNursery.ProbeAddress}}" } } ] }
            """);
        using var nursery = AgentUnderTest.StartThis(NurseryName);
        using var host = AgentUnderTest.StartThis(IdleHost.Name);
        try
        {
            using var agent = AgentUnderTest.Run(folder, native);
            var reading = new Thread(() => agent.Events.BaseStream.CopyTo(Stream.Null)) { IsBackground = true };
            reading.Start();
            Thread.Sleep(Settling);
            var (agentBefore, hostBefore) = (AgentUnderTest.ProcessorSeconds(agent.Id), AgentUnderTest.ProcessorSeconds(host.Id));
            Thread.Sleep(TimeSpan.FromSeconds(Seconds));
            var (agentAfter, hostAfter) = (AgentUnderTest.ProcessorSeconds(agent.Id), AgentUnderTest.ProcessorSeconds(host.Id));
            return new(Percent(agentAfter.Ticks - agentBefore.Ticks), Percent(hostAfter.Ticks - hostBefore.Ticks));
        }
        finally
        {
            nursery.Kill();
            host.Kill();
            Environment.SetEnvironmentVariable(BusVariable, null);
            Directory.Delete(folder, recursive: true);
        }
    }

    public static async Task<int> PlayAsync()
    {
        await PlayedNursery.RunAsync(Environment.GetEnvironmentVariable(BusVariable)!, CancellationToken.None);
        return 0;
    }

    private static double Percent(double seconds) => 100 * seconds / Seconds;
}
