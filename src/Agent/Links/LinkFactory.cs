using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Links.Bluetooth;
using CaptureAgent.Agent.Links.Hid;
using CaptureAgent.Agent.Links.Keyboard;
using CaptureAgent.Agent.Links.Serial;
using Microsoft.Extensions.Logging;

namespace CaptureAgent.Agent.Links;

/// <summary>The links for the devices of station.json. Those that are reached by Bluetooth share one adapter, so that a run has one factory.</summary>
internal sealed class LinkFactory(TimeProvider time, ILogger logger) : IDisposable
{
    private readonly Central central = new(null, time, BluetoothTimings.Default);

    /// <summary>The values of <c>connection.kind</c> that this version serves.</summary>
    public static IReadOnlyList<string> Kinds { get; } = ["serial", "bluetooth", "keyboard", "hid"];

    /// <summary>Where a person's word on a pairing goes.</summary>
    public Action ConfirmPairing => central.Desk.Confirm;

    /// <exception cref="NotSupportedException">The kind of connection is not served.</exception>
    /// <exception cref="ArgumentException">The connection is missing or has a value that is not allowed.</exception>
    public ILink Create(DeviceOptions device)
    {
        var connection = device.Connection
            ?? throw new ArgumentException($"Device \"{device.Id}\" has no \"connection\"; a live device needs one.", nameof(device));
        return connection.Kind switch
        {
            "serial" => Reconnecting(new SerialSessions(SerialPlan.For(device, connection), new SerialPortControl(), time)),
            "keyboard" => Reconnecting(new KeyboardSessions(device, connection, time)),
            "hid" => Reconnecting(new HidSessions(device, connection, time)),
            "bluetooth" => new BluetoothLink(central, device, connection, logger, LinkTimings.Default),
            _ => throw new NotSupportedException(
                $"Device \"{device.Id}\": connection.kind \"{connection.Kind}\" is not served by this version; it serves: {string.Join(", ", Kinds)}."),
        };

        ReconnectingLink Reconnecting(ISessionSource source) => new(device.Id, source, time, logger, LinkTimings.Default);
    }

    public void Dispose() => central.Dispose();
}
