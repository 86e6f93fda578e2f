using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using System.Runtime.InteropServices;
using System.Text.Json.Nodes;
using CaptureAgent.Simulators.Instruments;
using CaptureAgent.Simulators.Instruments.Encoders;
using CaptureAgent.Simulators.Nursery;
using CaptureAgent.Simulators.Nursery.Flock;
using CaptureAgent.Simulators.Nursery.Round;
using CaptureAgent.Simulators.Nursery.Watching;
using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Physics.Scales;
using Xunit;
using EventLog = CaptureAgent.Simulators.Nursery.Watching.EventLog;

namespace CaptureAgent.Page.Tests.Support;

/// <summary>The demo's nursery, instruments and keeper with the built agent as a process, its page at an address that stays, its tones in files.</summary>
internal sealed class LiveStation : IAsyncDisposable
{
    private const ulong Seed = 7;

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(180);

    private readonly StationFolder folder = new(keep: false);
    private readonly CancellationTokenSource off = new();
    private readonly Task instruments;
    private Process? agent;

    private LiveStation()
    {
        var (today, dayStartsAt) = Demo.NurseryDay(DateTimeOffset.UtcNow);
        Nursery = new InventedNursery(Seed, today);
        var specification = new ScaleSpecification();
        folder.Write(Nursery, dayStartsAt, specification.DivisionGrams);
        Address = FreeAddress();
        Tones = new RecordedTones(folder.Path);
        Configure();
        var scale = new SimulatedScale(new WeighingSimulation(new(Seed), new(specification, Seed + 1)), new HeaderComma(), folder.Scale, new(), Seed + 2);
        folder.Scale.Plug();
        folder.Scanner.Plug();
        folder.Probe.Plug();
        instruments = scale.RunAsync(TimeProvider.System, off.Token);
        Keeper = new(scale, new(folder.Scanner), Log, new Narration(TextWriter.Null, TimeProvider.System), TimeProvider.System);
    }

    public InventedNursery Nursery { get; }

    /// <summary>Of all runs of the agent, in the order in which they were told.</summary>
    public EventLog Log { get; } = new(TimeProvider.System);

    public Keeper Keeper { get; }

    public string Address { get; }

    public RecordedTones Tones { get; }

    public static async Task<LiveStation> StartAsync()
    {
        var station = new LiveStation();
        await station.DoAsync("import", "register", "register.csv");
        await station.DoAsync("import", "weights", "history.csv");
        await station.StartAgentAsync();
        return station;
    }

    /// <summary>Starts the agent, for the first time or anew, and waits until it hears the scale.</summary>
    public async Task StartAgentAsync()
    {
        var from = Log.Count;
        agent = Process.Start(Line("run", "--events", "-"))!;
        _ = ReadAsync(agent);
        Assert.NotNull(await Log.WaitAsync(from, one => one.Name == "ready", Patience, TestContext.Current.CancellationToken));
        while (!(folder.Scale.HasReader && folder.Scanner.HasReader))
            await Task.Delay(50, TestContext.Current.CancellationToken);
        // Some lines of what lies on the pan.
        await Task.Delay(1500, TestContext.Current.CancellationToken);
    }

    /// <summary>SIGKILL.</summary>
    public async Task KillAgentAsync()
    {
        agent!.Kill();
        await agent.WaitForExitAsync(TestContext.Current.CancellationToken);
        agent.Dispose();
        agent = null;
    }

    /// <summary>One placing of a chick of the nursery, from the scan to the lift.</summary>
    public async Task<AgentEvent> WeighAsync(string code, Manner? manner = null, double fullness = 1) =>
        await Keeper.WeighAsync(Nursery[code], fullness * Nursery[code].TrueGrams, manner ?? new(), TestContext.Current.CancellationToken)
            ?? throw new Xunit.Sdk.XunitException($"No weighing of {code} was told. Told were: {string.Join("; ", Log.All.Select(one => $"{one.Name} {one.Chick} {one.Text("code")} {one.Text("taken")} {one.Text("text")}"))}");

    public async ValueTask DisposeAsync()
    {
        if (agent is { HasExited: false })
            await KillAgentAsync();
        await off.CancelAsync();
        await instruments;
        folder.Dispose();
        off.Dispose();
    }

    private void Configure()
    {
        var path = Path.Combine(folder.Path, "station.json");
        var station = JsonNode.Parse(File.ReadAllText(path))!;
        station["page"] = new JsonObject { ["listen"] = Address };
        station["answers"] = new JsonObject { ["device"] = RecordedTones.Device, ["voice"] = "none", ["loudness"] = RecordedTones.Loudness };
        File.WriteAllText(path, station.ToJsonString());
    }

    private async Task DoAsync(params string[] arguments)
    {
        using var process = Process.Start(Line(arguments))!;
        var told = process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        var errors = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.True(process.ExitCode == 0, await told + await errors);
    }

    private async Task ReadAsync(Process process)
    {
        process.ErrorDataReceived += (_, _) => { };
        process.BeginErrorReadLine();
        try
        {
            while (await process.StandardOutput.ReadLineAsync() is { } line)
            {
                if (AgentEvent.Parse(line) is { } one)
                    Log.Add(one);
            }
        }
        catch (Exception gone) when (gone is IOException or ObjectDisposedException or InvalidOperationException)
        {
            // Killed in the middle of a line.
        }
    }

    private ProcessStartInfo Line(params string[] arguments)
    {
        var host = Path.GetFullPath(Path.Combine(RuntimeEnvironment.GetRuntimeDirectory(), "..", "..", "..", "dotnet"));
        var start = new ProcessStartInfo(host, [Path.Combine(AppContext.BaseDirectory, "capture-agent.dll"), .. arguments])
        {
            WorkingDirectory = folder.Path,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        start.Environment["ALSA_CONFIG_PATH"] = Tones.Configuration;
        return start;
    }

    private static string FreeAddress()
    {
        using var probe = new TcpListener(IPAddress.Loopback, 0);
        probe.Start();
        return $"http://127.0.0.1:{((IPEndPoint)probe.LocalEndpoint).Port}";
    }
}
