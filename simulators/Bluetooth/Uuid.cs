namespace CaptureAgent.Simulators.Bluetooth;

/// <summary>UUIDs as BlueZ writes them.</summary>
public static class Uuid
{
    /// <summary>All 36 characters; a short one lies in the base of the Bluetooth SIG (Bluetooth Core Specification, Vol 3, Part B, 2.5.1).</summary>
    public static string Full(string uuid) => uuid.Length == 4 ? $"0000{uuid}-0000-1000-8000-00805f9b34fb" : uuid;
}
