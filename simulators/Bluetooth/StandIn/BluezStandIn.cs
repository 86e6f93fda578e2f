using CaptureAgent.Simulators.Bluetooth.Bus;
using Tmds.DBus.Protocol;

namespace CaptureAgent.Simulators.Bluetooth.StandIn;

/// <summary>org.bluez as far as a central needs it, on a bus of our own: adapters, devices that advertise, connect and notify, and their faults.</summary>
/// <remarks>It is what its author believes of BlueZ (doc/org.bluez.*.rst, and what was seen of release 5.66); the real one is tried in the hardware stage.</remarks>
public sealed partial class BluezStandIn : IDisposable
{
    private const string Name = "org.bluez", AdapterInterface = "org.bluez.Adapter1", DeviceInterface = "org.bluez.Device1",
        CharacteristicInterface = "org.bluez.GattCharacteristic1", BatteryInterface = "org.bluez.Battery1", Failed = "org.bluez.Error.Failed";

    private const short NearStrength = -60;

    private const int MostAdapterCalls = 256;

    private static readonly TimeSpan Advertising = TimeSpan.FromMilliseconds(50);

    private readonly DBusConnection connection;
    private readonly ExportedObjects objects;
    private readonly CancellationTokenSource over = new();
    private readonly Dictionary<string, SimulatedPeripheral> peripherals = new(StringComparer.Ordinal);
    private readonly Lock gate = new();
    private readonly Queue<string> adapterCalls = [];
    private (string Owner, string Path)? agent;

    private BluezStandIn(DBusConnection connection)
    {
        this.connection = connection;
        objects = new ExportedObjects(connection, "/");
        connection.AddMethodHandler(new Handler(this));
    }

    /// <summary>The radio is blocked, as in airplane mode: it cannot be switched on.</summary>
    public bool IsBlocked { get; set; }

    /// <summary>Discovery runs and hears nobody.</summary>
    public bool IsDeaf { get; set; }

    /// <summary>What heals a deaf adapter; null: nothing.</summary>
    public string? HealedBy { get; set; }

    /// <summary>The last calls to adapters, in their order, by the method's name; switching on and off as PowerOn and PowerOff.</summary>
    public IReadOnlyList<string> AdapterCalls
    {
        get
        {
            lock (gate)
                return [.. adapterCalls];
        }
    }

    /// <summary>Service on the bus at this address, with an adapter hci0.</summary>
    public static async Task<BluezStandIn> StartAsync(string bus)
    {
        var connection = new DBusConnection(bus);
        await connection.ConnectAsync();
        var standIn = new BluezStandIn(connection);
        standIn.objects.Add("/org/bluez", new() { ["org.bluez.AgentManager1"] = [] });
        standIn.PlugIn("hci0", "00:AA:01:00:00:23");
        await connection.RequestNameAsync(Name, RequestNameOptions.None);
        _ = standIn.AdvertiseAsync();
        return standIn;
    }

    public void PlugIn(string adapter, string address, bool isPowered = true) => objects.Add(AdapterPath(adapter), new()
    {
        [AdapterInterface] = new() { ["Address"] = address, ["Powered"] = isPowered, ["Discovering"] = false },
    });

    public void Unplug(string adapter)
    {
        foreach (var peripheral in All())
            Drop(peripheral);
        foreach (var path in objects.Below(AdapterPath(adapter)))
            objects.Remove(path);
        objects.Remove(AdapterPath(adapter));
    }

    public void SwitchOff(string adapter)
    {
        foreach (var peripheral in All())
            Drop(peripheral);
        objects.Set(AdapterPath(adapter), AdapterInterface, ("Discovering", false), ("Powered", false));
    }

    public bool IsDiscovering(string adapter) => objects.Get(AdapterPath(adapter), AdapterInterface, "Discovering")?.GetBool() is true;

    public void Add(SimulatedPeripheral peripheral)
    {
        lock (gate)
            peripherals[DevicePath(peripheral)] = peripheral;
    }

    /// <summary>Somebody has connected it and its services are resolved; no signal tells of it.</summary>
    public void ConnectUnsaid(SimulatedPeripheral peripheral)
    {
        var path = DevicePath(peripheral);
        Advertise(peripheral, NearStrength);
        objects.SetUnsaid(path, DeviceInterface, ("Connected", true), ("ServicesResolved", true));
        AddCharacteristics(peripheral, path);
    }

    /// <summary>The connection is lost.</summary>
    public void Drop(SimulatedPeripheral peripheral)
    {
        peripheral.Notifying.Clear();
        if (IsConnected(DevicePath(peripheral)))
            objects.Set(DevicePath(peripheral), DeviceInterface, ("ServicesResolved", false), ("Connected", false));
    }

    /// <summary>Lost, and not to be heard or connected.</summary>
    public void Leave(SimulatedPeripheral peripheral)
    {
        peripheral.IsInRange = false;
        Drop(peripheral);
    }

    public static void Return(SimulatedPeripheral peripheral)
    {
        peripheral.IsInRange = true;
        peripheral.Pending?.TrySetResult(true);
    }

    /// <summary>The device object drops off the bus, as a temporary one does some 30 s after it was last heard.</summary>
    public void Forget(SimulatedPeripheral peripheral)
    {
        foreach (var path in objects.Below(DevicePath(peripheral)))
            objects.Remove(path);
        objects.Remove(DevicePath(peripheral));
    }

    /// <summary>Sends a value; false if nobody listens.</summary>
    public bool Notify(SimulatedPeripheral peripheral, string uuid, byte[] value)
    {
        var at = CharacteristicPath(peripheral, uuid);
        if (peripheral.IsMute || !peripheral.Notifying.Contains(at))
            return false;
        objects.Set(at, CharacteristicInterface, ("Value", VariantValue.Array(value)));
        return true;
    }

    public static bool IsNotifying(SimulatedPeripheral peripheral, string uuid) => peripheral.Notifying.Contains(CharacteristicPath(peripheral, uuid));

    /// <summary>Its services were found to have changed: everything that was subscribed is void, though the connection stays.</summary>
    public void ResolveAgain(SimulatedPeripheral peripheral)
    {
        objects.Set(DevicePath(peripheral), DeviceInterface, ("ServicesResolved", false));
        peripheral.Notifying.Clear();
        objects.Set(DevicePath(peripheral), DeviceInterface, ("ServicesResolved", true));
    }

    /// <summary>The service is gone from the bus, as when it is killed.</summary>
    public void Dispose()
    {
        over.Cancel();
        connection.Dispose();
        over.Dispose();
    }

    private static string AdapterPath(string adapter) => $"/org/bluez/{adapter}";

    private static string DevicePath(SimulatedPeripheral peripheral) => $"{AdapterPath("hci0")}/dev_{peripheral.Address.Replace(':', '_')}";

    private static string CharacteristicPath(SimulatedPeripheral peripheral, string uuid)
    {
        var index = peripheral.Characteristics.ToList().FindIndex(one => one.Uuid == uuid);
        var generation = peripheral.LeavesGhosts ? peripheral.Connections : 0;
        return $"{DevicePath(peripheral)}/service{generation:x2}01/char{(generation << 8) + index + 2:x4}";
    }

    private List<SimulatedPeripheral> All()
    {
        lock (gate)
            return [.. peripherals.Values];
    }

    private async Task AdvertiseAsync()
    {
        var toggle = (short)0;
        while (!over.IsCancellationRequested)
        {
            await Task.Delay(Advertising, over.Token).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            if (over.IsCancellationRequested || IsDeaf || !IsDiscovering("hci0"))
                continue;
            toggle ^= 1;
            foreach (var peripheral in All().Where(static one => one.IsInRange))
                Advertise(peripheral, (short)(NearStrength - toggle));
        }
    }

    private void Advertise(SimulatedPeripheral peripheral, short strength)
    {
        var path = DevicePath(peripheral);
        if (IsConnected(path))
            return;
        var heard = new List<(string, VariantValue)> { ("RSSI", strength) };
        if (peripheral.ServiceData.Count > 0)
            heard.Add(("ServiceData", new Dict<string, VariantValue>(peripheral.ServiceData.ToDictionary(one => Uuid.Full(one.Key), one => VariantValue.Array(one.Value))).AsVariantValue()));
        if (objects.Has(path))
        {
            objects.Set(path, DeviceInterface, [.. heard]);
            return;
        }

        var properties = new Dictionary<string, VariantValue> { ["Address"] = peripheral.Address, ["Connected"] = false, ["ServicesResolved"] = false, ["Paired"] = false };
        foreach (var (name, value) in heard)
            properties[name] = value;
        objects.Add(path, new() { [DeviceInterface] = properties });
    }
}
