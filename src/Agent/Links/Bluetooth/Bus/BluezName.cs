namespace CaptureAgent.Agent.Links.Bluetooth.Bus;

/// <summary>Names of BlueZ's D-Bus API (BlueZ, doc/org.bluez.*.rst) and of the D-Bus specification.</summary>
internal static class BluezName
{
    public const string Service = "org.bluez", Root = "/org/bluez";

    public const string Adapter = "org.bluez.Adapter1", Device = "org.bluez.Device1", Characteristic = "org.bluez.GattCharacteristic1",
        GattService = "org.bluez.GattService1", Battery = "org.bluez.Battery1", AgentManager = "org.bluez.AgentManager1", Agent = "org.bluez.Agent1";

    public const string Properties = "org.freedesktop.DBus.Properties", ObjectManager = "org.freedesktop.DBus.ObjectManager";

    public const string Daemon = "org.freedesktop.DBus", DaemonPath = "/org/freedesktop/DBus";

    /// <summary>The object of a device, named after its address.</summary>
    public static string DevicePath(string adapterPath, string address) =>
        $"{adapterPath}/dev_{address.ToUpperInvariant().Replace(':', '_')}";
}
