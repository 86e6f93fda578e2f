namespace CaptureAgent.Agent.Links.Bluetooth;

/// <summary>What can be wrong with Bluetooth, for a person: few causes, each always in the same words, so that an outage is told once.</summary>
internal static class BluetoothFault
{
    public static LinkException NoService() => new(
        LinkCause.NoBluetooth, "The Bluetooth service of this computer does not run.",
        "It is used again by itself when it does: `systemctl status bluetooth` says why it does not (package bluez).");

    /// <param name="address">Null: any adapter would do.</param>
    public static LinkException NoAdapter(string? address) => new(
        LinkCause.NoBluetooth, address is null ? "There is no Bluetooth adapter." : $"There is no Bluetooth adapter {address}.",
        "Plug it in; `bluetoothctl list` names those that are there. It is used again by itself.");

    public static LinkException AdapterOff(string address) => new(
        LinkCause.NoBluetooth, $"The Bluetooth adapter {address} is switched off.",
        "End the airplane mode or unblock it (`rfkill unblock bluetooth`). It is used again by itself.");

    public static LinkException Deaf(string address) => new(
        LinkCause.NoBluetooth, $"The Bluetooth adapter {address} has heard nothing from any device, though it was started anew.",
        "If the device is on and near, plug the adapter in again or restart the computer; else switch the device on. Write weights on paper meanwhile.");

    public static LinkException NotHeard(string address) => new(
        LinkCause.Absent, $"{address} is not heard.", "Switch it on, wake it, bring it nearer, and look to its battery; close other programs and phones that are connected to it.")
    {
        IsAbsence = true,
    };

    public static LinkException NotConnecting(string address) => new(
        LinkCause.NoAnswer, $"{address} is heard but does not take the connection.", "Close other programs and phones that are connected to it; if that does not help, take its battery out for a moment.")
    {
        IsAbsence = true,
    };

    public static LinkException Lost(string address) => new(
        LinkCause.Lost, $"{address} was lost.", "Switched off, asleep, out of range or its battery empty? It is used again by itself when it comes back.")
    {
        IsAbsence = true,
    };

    public static LinkException Mute(string address, TimeSpan waited) => new(
        LinkCause.NoAnswer, $"{address} is connected but has sent nothing for {waited.TotalSeconds:0} s.",
        "Put something on the scale, or take the probe to hand; if it stays silent, take its battery out for a moment.");

    /// <param name="wanted">UUIDs in short form.</param>
    public static LinkException Lacking(string address, IEnumerable<string> wanted, IReadOnlyCollection<string> there) => new(
        LinkCause.WrongDevice, $"{address} has none of the characteristics {string.Join(", ", wanted)}; it has {(there.Count == 0 ? "none at all" : string.Join(", ", there))}.",
        "Check address and dialect in station.json.");

    public static LinkException Unpaired(string address) => new(
        LinkCause.NotPaired, $"{address} asks to be paired, and that did not succeed.",
        "Set the device to pairing and confirm with the pair card when asked; if it was paired before, `bluetoothctl remove " + address + "` forgets the old pairing.");
}
