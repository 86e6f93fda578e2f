using CaptureAgent.Agent.Instruments;
using CaptureAgent.Agent.Links.Bluetooth.Bus;
using Tmds.DBus.Protocol;

namespace CaptureAgent.Agent.Links.Bluetooth.Proxies;

/// <summary>org.bluez.GattCharacteristic1 (BlueZ, doc/org.bluez.GattCharacteristic.rst).</summary>
internal sealed class CharacteristicProxy(Bluez bluez, string path, BluetoothTimings timings)
{
    public string Path => path;

    /// <summary>In short form.</summary>
    public string Uuid => BluetoothNeeds.Short(bluez.Tree.Text(path, BluezName.Characteristic, "UUID") ?? "");

    /// <summary>UUID of the service it is part of, in short form; null: not known.</summary>
    public string? Service =>
        bluez.Tree.Text(path, BluezName.Characteristic, "Service") is { } service && bluez.Tree.Text(service, BluezName.GattService, "UUID") is { } uuid
            ? BluetoothNeeds.Short(uuid)
            : null;

    public bool CanNotify => HasFlag("notify") || HasFlag("indicate");

    public bool CanRead => HasFlag("read");

    /// <summary>Notifications, or indications, which BlueZ confirms itself.</summary>
    public Task StartNotifyAsync(CancellationToken stop) =>
        bluez.CallAsync(path, BluezName.Characteristic, "StartNotify", null, null, timings.Resolving, stop);

    public Task<byte[]> ReadAsync(CancellationToken stop) => bluez.CallAsync(
        path, BluezName.Characteristic, "ReadValue", "a{sv}", NoOptions, static message => message.GetBodyReader().ReadArrayOfByte(), timings.Resolving, stop);

    public Task WriteAsync(ReadOnlyMemory<byte> bytes, CancellationToken stop) => bluez.CallAsync(
        path,
        BluezName.Characteristic,
        "WriteValue",
        "aya{sv}",
        (ref writer) =>
        {
            writer.WriteArray(bytes.Span);
            NoOptions(ref writer);
        },
        timings.Resolving,
        stop);

    private static void NoOptions(ref MessageWriter writer) => writer.WriteDictionary(Array.Empty<KeyValuePair<string, VariantValue>>());

    private bool HasFlag(string flag) =>
        bluez.Tree.Get(path, BluezName.Characteristic, "Flags") is { Type: VariantValueType.Array } flags && flags.GetArray<string>().Contains(flag, StringComparer.Ordinal);
}
