using CaptureAgent.Agent.Links.Bluetooth.Bus;

namespace CaptureAgent.Agent.Links.Bluetooth.Proxies;

/// <summary>org.bluez.Device1 (BlueZ, doc/org.bluez.Device.rst).</summary>
internal sealed class DeviceProxy(Bluez bluez, string path, BluetoothTimings timings)
{
    public string Path => path;

    public bool IsThere => bluez.Tree.Has(path, BluezName.Device);

    public bool IsConnected => bluez.Tree.IsTrue(path, BluezName.Device, "Connected");

    public bool IsResolved => bluez.Tree.IsTrue(path, BluezName.Device, "ServicesResolved");

    public bool IsPaired => bluez.Tree.IsTrue(path, BluezName.Device, "Paired");

    /// <summary>Percent, as the device last told BlueZ, which keeps the battery service to itself; null: it has told nothing.</summary>
    public byte? Battery => bluez.Tree.Get(path, BluezName.Battery, "Percentage")?.GetByte();

    /// <summary>Returns when the link is up; the services are not yet known then.</summary>
    public Task ConnectAsync(CancellationToken stop) => CallAsync("Connect", timings.Connecting, stop);

    /// <summary>Also cancels a pending <see cref="ConnectAsync"/>.</summary>
    public Task DisconnectAsync(CancellationToken stop) => CallAsync("Disconnect", timings.Calling, stop);

    public Task PairAsync(CancellationToken stop) => CallAsync("Pair", timings.Confirming + timings.Calling, stop);

    /// <summary>Asks how it is, where its signals cannot be relied on.</summary>
    public Task RefreshAsync(CancellationToken stop) => bluez.RefreshAsync(path, BluezName.Device, timings.Calling, stop);

    /// <summary>BlueZ keeps the device and its keys.</summary>
    public Task TrustAsync(CancellationToken stop) => bluez.CallAsync(
        path,
        BluezName.Properties,
        "Set",
        "ssv",
        static (ref writer) =>
        {
            writer.WriteString(BluezName.Device);
            writer.WriteString("Trusted");
            writer.WriteVariantBool(true);
        },
        timings.Calling,
        stop);

    private Task CallAsync(string member, TimeSpan limit, CancellationToken stop) => bluez.CallAsync(path, BluezName.Device, member, null, null, limit, stop);
}
