using CaptureAgent.Agent.Links.Bluetooth.Adapters;
using CaptureAgent.Agent.Links.Bluetooth.Bus;
using CaptureAgent.Agent.Links.Bluetooth.Pairing;

namespace CaptureAgent.Agent.Links.Bluetooth;

/// <summary>The Bluetooth of this computer for all devices of a run: one connection to the service, opened anew after each of its deaths, and the adapters on it.</summary>
/// <param name="bus">Address of the bus; null: the system's.</param>
internal sealed class Central(string? bus, TimeProvider time, BluetoothTimings timings) : IDisposable
{
    private readonly SemaphoreSlim opening = new(1, 1);
    private readonly Dictionary<string, Adapter> adapters = new(StringComparer.Ordinal);
    private Bluez? current;

    public PairingDesk Desk { get; } = new(time);

    public BluetoothTimings Timings => timings;

    public TimeProvider Time => time;

    /// <summary>The service, and the adapter that is asked for.</summary>
    /// <param name="address">Null: the first.</param>
    /// <exception cref="LinkException">One of them is not there.</exception>
    public async Task<(Bluez Bluez, Adapter Adapter)> ReachAsync(string? address, CancellationToken stop)
    {
        var bluez = await ServiceAsync(stop);
        try
        {
            // The service is on the bus a moment before its adapters are.
            return (bluez, await bluez.Tree.WaitAsync(_ => Find(bluez, address), timings.Appearing, stop));
        }
        catch (TimeoutException)
        {
            throw BluetoothFault.NoAdapter(address);
        }
    }

    public void Dispose()
    {
        Close();
        opening.Dispose();
    }

    private async Task<Bluez> ServiceAsync(CancellationToken stop)
    {
        await opening.WaitAsync(stop);
        try
        {
            if (current is not { Tree.End: null })
                await OpenAsync(stop);
            return current!;
        }
        finally
        {
            opening.Release();
        }
    }

    private async Task OpenAsync(CancellationToken stop)
    {
        Close();
        var address = bus ?? Tmds.DBus.Protocol.DBusAddress.System ?? throw BluetoothFault.NoService();
        var opened = await Bluez.OpenAsync(address, time, timings, stop);
        await PairingAgent.RegisterAsync(opened, Desk, timings, stop);
        current = opened;
    }

    private void Close()
    {
        lock (adapters)
        {
            foreach (var path in adapters.Keys.ToList())
                Drop(path);
        }

        current?.Dispose();
        current = null;
    }

    private void Drop(string path)
    {
        if (adapters.Remove(path, out var adapter))
            adapter.Dispose();
    }

    private Adapter? Find(Bluez bluez, string? address)
    {
        lock (adapters)
        {
            // One that was unplugged and plugged in again has its old name and nothing else.
            foreach (var gone in adapters.Keys.Where(one => !bluez.Tree.Has(one, BluezName.Adapter)).ToList())
                Drop(gone);
            var path = bluez.Tree.Below(BluezName.Root, BluezName.Adapter)
                .FirstOrDefault(one => address is null || address.Equals(bluez.Tree.Text(one, BluezName.Adapter, "Address"), StringComparison.OrdinalIgnoreCase));
            if (path is null || bluez != current)
                return null;
            if (!adapters.TryGetValue(path, out var adapter))
                adapters[path] = adapter = new Adapter(bluez, path, timings, time);
            return adapter;
        }
    }
}
