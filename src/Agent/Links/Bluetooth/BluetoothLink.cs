using System.Threading.Channels;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Links.Bluetooth.Advertisements;
using CaptureAgent.Agent.Links.Bluetooth.Gatt;
using CaptureAgent.Agent.Trace;
using Microsoft.Extensions.Logging;

namespace CaptureAgent.Agent.Links.Bluetooth;

/// <summary>A device reached by Bluetooth low energy: connected, or heard in its advertisements, as its dialect wants it.</summary>
internal sealed class BluetoothLink : ILink
{
    private readonly Central central;
    private readonly GattPlan plan;
    private readonly ReconnectingLink link;

    /// <exception cref="ArgumentException">The connection has no address.</exception>
    public BluetoothLink(Central central, DeviceOptions device, ConnectionOptions connection, ILogger logger, LinkTimings timings)
    {
        this.central = central;
        plan = GattPlan.For(device, connection);
        ISessionSource source = plan.Needs.ServiceData is null
            ? new GattSessions(central, plan, logger)
            : new AdvertisementSessions(central, plan, isUrgent: device.Role == "scale");
        link = new ReconnectingLink(device.Id, source, central.Time, logger, timings);
    }

    public string Device => plan.Device;

    public async Task RunAsync(ChannelWriter<TraceRecord> output, CancellationToken stop)
    {
        using var ours = central.Desk.Enrol(plan.Address, plan.Device, output);
        await link.RunAsync(output, stop);
    }
}
