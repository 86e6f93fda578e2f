using CaptureAgent.Agent.Links.Bluetooth.Adapters;
using CaptureAgent.Agent.Links.Bluetooth.Bus;
using CaptureAgent.Agent.Links.Bluetooth.Proxies;
using Microsoft.Extensions.Logging;

namespace CaptureAgent.Agent.Links.Bluetooth.Gatt;

/// <summary>Connects to one device: found on the air, connected, its services resolved, its characteristics notifying, its first value heard.</summary>
/// <remarks>Neither <c>Connected</c> nor <c>Notifying</c> is believed: what counts is bytes.</remarks>
internal sealed class GattSessions(Central central, GattPlan plan, ILogger logger) : ISessionSource
{
    private readonly BatteryRound battery = new(central.Time, central.Timings.BatteryEvery);
    private long? missingSince = central.Time.GetTimestamp();

    public async Task<ISession> OpenAsync(bool afterSilence, CancellationToken stop)
    {
        missingSince ??= central.Time.GetTimestamp();
        var (bluez, adapter) = await central.ReachAsync(plan.Adapter, stop);
        try
        {
            await adapter.SwitchOnAsync(stop);
            var device = adapter.Device(plan.Address);
            await DropGhostAsync(bluez, device, stop);
            await FindAsync(bluez, adapter, device, stop);
            await new Connecting(central, bluez, adapter, device, plan, logger).ConnectAsync(stop);
            var session = new GattSession(central, bluez, adapter, device, plan, battery);
            try
            {
                await session.StartAsync(stop);
            }
            catch
            {
                await session.DisposeAsync();
                throw;
            }

            missingSince = null;
            return session;
        }
        catch (LinkException)
        {
            // What is wrong with the service or the adapter is the reason for whatever is wrong with the device.
            if ((bluez.Tree.End ?? adapter.Trouble(plan.Adapter)) is { } deeper)
                throw deeper;
            throw;
        }
    }

    // A connection that BlueZ still claims to have from before is good for nothing: whoever made it, its notifications do not come here.
    private async Task DropGhostAsync(Bluez bluez, DeviceProxy device, CancellationToken stop)
    {
        if (!device.IsConnected)
            return;
        await Connecting.DisconnectAsync(central, bluez, device, stop);
    }

    private async Task FindAsync(Bluez bluez, Adapter adapter, DeviceProxy device, CancellationToken stop)
    {
        var since = central.Time.GetTimestamp();
        var urgent = central.Time.GetElapsedTime(missingSince!.Value) < central.Timings.FullScan;
        using var wanted = adapter.Discovery.Want(urgent);
        if (device.IsThere && await IsSeenAsync(central.Timings.SeeingKnown))
            return;
        // A connection made unheard stops discovery for everyone while it is tried.
        if ((device.IsThere && !adapter.Discovery.IsShared) || await IsSeenAsync(central.Timings.Seeing))
            return;
        throw adapter.Discovery.IsDeaf ? BluetoothFault.Deaf(adapter.Address) : BluetoothFault.NotHeard(plan.Address);

        async Task<bool> IsSeenAsync(TimeSpan limit)
        {
            try
            {
                await bluez.Tree.WaitAsync(IsSeen, limit, stop);
                return true;
            }
            catch (TimeoutException)
            {
                return false;
            }
        }

        string? IsSeen(ObjectTree tree) =>
            adapter.Trouble(plan.Adapter) is { } trouble ? throw trouble
            : device.IsConnected || (tree.Heard(device.Path) is { } at && at >= since) ? "seen" : null;
    }
}
