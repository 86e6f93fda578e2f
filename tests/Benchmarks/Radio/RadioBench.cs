using System.Threading.Channels;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Links;
using CaptureAgent.Agent.Links.Bluetooth;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Simulators.Bluetooth;
using CaptureAgent.Simulators.Bluetooth.Bus;
using CaptureAgent.Simulators.Bluetooth.StandIn;
using Microsoft.Extensions.Logging.Abstractions;

namespace CaptureAgent.Benchmarks.Radio;

/// <summary>A bus, a stand-in with one scale, and a link to it, with the timings of a real run.</summary>
internal sealed class RadioBench : IAsyncDisposable
{
    private readonly CancellationTokenSource stop = new();
    private readonly Channel<TraceRecord> records = Channel.CreateUnbounded<TraceRecord>();
    private readonly PrivateBus bus = new();
    private readonly Central central;
    private Task running = Task.CompletedTask;

    public RadioBench() => central = new Central(bus.Address, TimeProvider.System, BluetoothTimings.Default);

    public static DeviceOptions Scale { get; } = new()
    {
        Id = "scale",
        Role = "scale",
        Dialect = "header-comma",
        DivisionGrams = 0.1m,
        Frame = new() { Service = PlayedNursery.ScaleService, Characteristic = PlayedNursery.ScaleValue },
        Connection = new() { Kind = "bluetooth", Address = PlayedNursery.ScaleAddress },
    };

    public string Address => bus.Address;

    public BluezStandIn Bluez { get; private set; } = null!;

    public SimulatedPeripheral Device { get; } = PlayedNursery.NewScale();

    public ChannelReader<TraceRecord> Records => records.Reader;

    /// <param name="patience">Of the link; null: without one.</param>
    public static async Task<RadioBench> StartAsync(LinkTimings? patience)
    {
        var bench = new RadioBench();
        bench.Bluez = await BluezStandIn.StartAsync(bench.bus.Address);
        bench.Bluez.Add(bench.Device);
        if (patience is not null)
            bench.running = new BluetoothLink(bench.central, Scale, Scale.Connection!, NullLogger.Instance, patience).RunAsync(bench.records.Writer, bench.stop.Token);
        return bench;
    }

    public bool Send(byte[] value) => Bluez.Notify(Device, PlayedNursery.ScaleValue, value);

    /// <summary>Returns once somebody is subscribed.</summary>
    public async Task SubscribedAsync()
    {
        while (!BluezStandIn.IsNotifying(Device, PlayedNursery.ScaleValue))
            await Task.Delay(1);
    }

    public async ValueTask DisposeAsync()
    {
        await stop.CancelAsync();
        await running;
        central.Dispose();
        Bluez.Dispose();
        bus.Dispose();
        stop.Dispose();
    }
}
