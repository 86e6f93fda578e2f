using System.IO.Ports;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Instruments;

namespace CaptureAgent.Agent.Commands;

/// <summary>The instruments that station.json names, and what is plugged into this machine. Opens nothing.</summary>
internal static class DeviceList
{
    private static readonly (string Folder, string What)[] Places =
    [
        ("/dev/serial/by-id", "serial"), ("/dev/input/by-id", "keyboard"), ("/dev/capture", "named by a rule of udev"), ("/sys/bus/w1/devices", "one-wire"), ("/sys/class/bluetooth", "bluetooth adapter"),
    ];

    public static string Text(StationOptions station)
    {
        var table = new TextTable("device", "role", "dialect", "connection", "remark");
        foreach (var device in station.Devices)
            table.Add(device.Id, device.Role, device.Dialect, Where(device), Remark(device));
        var attached = Attached().ToList();
        return $"""
            {(station.Devices.Count == 0 ? "station.json names no devices.\n" : table.ToString())}
            {(attached.Count == 0 ? "Nothing that could be an instrument is plugged in." : "Plugged in:\n  " + string.Join("\n  ", attached))}

            """;
    }

    private static string Where(DeviceOptions device) => device.Connection switch
    {
        null => "none (a replay needs none)",
        { Kind: "bluetooth" } bluetooth => $"bluetooth {bluetooth.Address}",
        var other => $"{other.Kind} {other.Path}",
    };

    private static string? Remark(DeviceOptions device)
    {
        if (Streams.IsFinished(device))
            return device.Dialect == "bthome" ? "steps of 10 g: too coarse for any chick" : "steps of 5 g: too coarse for chicks below 1.7 kg";
        if (device.Dialect == "frame" && device.Frame is not { Proof.Count: > 0 })
            return $"not described yet: capture-agent devices --listen {device.Id}";
        return device.Connection is { Kind: "serial", Path: { } path } && !File.Exists(path) ? "not plugged in" : null;
    }

    private static IEnumerable<string> Attached()
    {
        foreach (var name in SerialPort.GetPortNames().Order(StringComparer.Ordinal))
            yield return $"{name} (serial)";
        foreach (var (folder, what) in Places)
        {
            if (!Directory.Exists(folder))
                continue;
            foreach (var entry in Directory.EnumerateFileSystemEntries(folder).Order(StringComparer.Ordinal))
                yield return $"{entry} ({what})";
        }
    }
}
