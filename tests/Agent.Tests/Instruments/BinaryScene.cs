using System.Text;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Tests.Round;
using CaptureAgent.Agent.Trace;

namespace CaptureAgent.Agent.Tests.Instruments;

/// <summary>Frames played to the core, as a link or a trace delivers them.</summary>
internal sealed class BinaryScene
{
    private readonly StationCore core;
    private readonly List<StationEvent> events = [];

    public BinaryScene(Ledger? ledger = null, params DeviceOptions[] devices)
    {
        var options = new StationOptions();
        foreach (var device in devices)
            options.Devices.Add(device);
        options.Devices.Add(new DeviceOptions { Id = "scanner", Role = "scanner", Dialect = "line" });
        core = new StationCore(options, ledger ?? Scene.Nursery());
    }

    public DateTimeOffset Now { get; private set; } = new(2026, 3, 2, 5, 40, 0, TimeSpan.Zero);

    public IReadOnlyList<StationEvent> Events => events;

    public IReadOnlyList<WeighingEvent> Weighings => [.. events.OfType<WeighingEvent>()];

    public IReadOnlyList<ProbeEvent> Temperatures => [.. events.OfType<ProbeEvent>()];

    public static DeviceOptions Scale(string dialect, Action<DeviceOptions>? configure = null) => Device("scale", "scale", dialect, configure);

    public static DeviceOptions Probe(string dialect, Action<DeviceOptions>? configure = null) => Device("probe", "probe", dialect, configure);

    public BinaryScene Wait(double seconds)
    {
        Now = Now.AddSeconds(seconds);
        core.Expire(Now, events);
        return this;
    }

    public BinaryScene Send(string device, string source, string hex, double after = 1)
    {
        Now = Now.AddSeconds(after);
        core.Accept(new TraceRecord(Now, device, Convert.FromHexString(hex), source), events);
        return this;
    }

    public BinaryScene Scan(string code, double after = 1, string device = "scanner")
    {
        Now = Now.AddSeconds(after);
        core.Accept(new TraceRecord(Now, device, Encoding.Latin1.GetBytes(code + "\r")), events);
        return this;
    }

    private static DeviceOptions Device(string id, string role, string dialect, Action<DeviceOptions>? configure)
    {
        var device = new DeviceOptions { Id = id, Role = role, Dialect = dialect };
        configure?.Invoke(device);
        return device;
    }
}
