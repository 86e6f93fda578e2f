using CaptureAgent.Agent.Links.Bluetooth.Bus;
using Tmds.DBus.Protocol;

namespace CaptureAgent.Agent.Links.Bluetooth.Proxies;

/// <summary>org.bluez.Adapter1 (BlueZ, doc/org.bluez.Adapter.rst).</summary>
internal sealed class AdapterProxy(Bluez bluez, string path, BluetoothTimings timings)
{
    public string Path => path;

    public string Address => bluez.Tree.Text(path, BluezName.Adapter, "Address") ?? path;

    public bool IsThere => bluez.Tree.Has(path, BluezName.Adapter);

    public bool IsPowered => IsPowerCycled || bluez.Tree.IsTrue(path, BluezName.Adapter, "Powered");

    /// <summary>It is being switched off and on again, which is no trouble to be told.</summary>
    public bool IsPowerCycled { get; set; }

    public Task SetPoweredAsync(bool on, CancellationToken stop) => bluez.CallAsync(
        path,
        BluezName.Properties,
        "Set",
        "ssv",
        (ref writer) =>
        {
            writer.WriteString(BluezName.Adapter);
            writer.WriteString("Powered");
            writer.WriteVariantBool(on);
        },
        timings.Calling,
        stop);

    /// <summary>Low energy only; every advertisement, also one that says the same again, for else a value that stays is silence.</summary>
    /// <remarks>No UUIDs: devices that send service data often do not list it.</remarks>
    public Task SetDiscoveryFilterAsync(CancellationToken stop) => bluez.CallAsync(
        path,
        BluezName.Adapter,
        "SetDiscoveryFilter",
        "a{sv}",
        static (ref writer) => writer.WriteDictionary(new Dictionary<string, VariantValue>
        {
            ["Transport"] = VariantValue.String("le"),
            ["DuplicateData"] = VariantValue.Bool(true),
        }),
        timings.Calling,
        stop);

    public Task StartDiscoveryAsync(CancellationToken stop) => CallAsync("StartDiscovery", stop);

    public Task StopDiscoveryAsync(CancellationToken stop) => CallAsync("StopDiscovery", stop);

    /// <summary>Forgets a device, its cache of services and its bond.</summary>
    public Task RemoveDeviceAsync(string device, CancellationToken stop) =>
        bluez.CallAsync(path, BluezName.Adapter, "RemoveDevice", "o", (ref writer) => writer.WriteObjectPath(device), timings.Calling, stop);

    private Task CallAsync(string member, CancellationToken stop) =>
        bluez.CallAsync(path, BluezName.Adapter, member, null, null, timings.Calling, stop);
}
