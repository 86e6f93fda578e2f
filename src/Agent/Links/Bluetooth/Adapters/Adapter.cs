using CaptureAgent.Agent.Links.Bluetooth.Bus;
using CaptureAgent.Agent.Links.Bluetooth.Proxies;
using Tmds.DBus.Protocol;

namespace CaptureAgent.Agent.Links.Bluetooth.Adapters;

/// <summary>One adapter during one life of the service, shared by the devices that are reached through it.</summary>
internal sealed class Adapter : IDisposable
{
    private readonly Bluez bluez;
    private readonly BluetoothTimings timings;
    private readonly AdapterProxy proxy;
    private readonly CancellationTokenSource over = new();

    public Adapter(Bluez bluez, string path, BluetoothTimings timings, TimeProvider time)
    {
        this.bluez = bluez;
        this.timings = timings;
        proxy = new AdapterProxy(bluez, path, timings);
        Discovery = new Discovery(proxy, new Hearing(bluez.Tree, timings, time), timings, time);
        _ = RunAsync(over.Token);
    }

    public Discovery Discovery { get; }

    public string Path => proxy.Path;

    public string Address => proxy.Address;

    public DeviceProxy Device(string address) => new(bluez, BluezName.DevicePath(Path, address), timings);

    public Task ForgetAsync(DeviceProxy device, CancellationToken stop) => proxy.RemoveDeviceAsync(device.Path, stop);

    /// <summary>Why the adapter cannot be used now; null if it can.</summary>
    public LinkException? Trouble(string? wanted) =>
        !proxy.IsThere ? BluetoothFault.NoAdapter(wanted) : !proxy.IsPowered ? BluetoothFault.AdapterOff(Address) : null;

    /// <exception cref="LinkException">It cannot be switched on.</exception>
    public async Task SwitchOnAsync(CancellationToken stop)
    {
        if (proxy.IsPowered)
            return;
        try
        {
            await proxy.SetPoweredAsync(true, stop);
            await bluez.Tree.WaitAsync(_ => proxy.IsPowered ? "on" : null, timings.Appearing, stop);
            Discovery.Reset();
        }
        catch (Exception refusal) when (refusal is DBusErrorReplyException or TimeoutException)
        {
            throw BluetoothFault.AdapterOff(Address);
        }
    }

    public void Dispose()
    {
        over.Cancel();
        over.Dispose();
    }

    private async Task RunAsync(CancellationToken stop)
    {
        try
        {
            await Discovery.RunAsync(stop);
        }
        catch (Exception end) when (end is OperationCanceledException or LinkException)
        {
        }
    }
}
