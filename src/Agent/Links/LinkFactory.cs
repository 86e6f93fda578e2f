using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Links.Serial;
using Microsoft.Extensions.Logging;

namespace CaptureAgent.Agent.Links;

/// <summary>The link for a device of station.json.</summary>
internal static class LinkFactory
{
    /// <summary>The values of <c>connection.kind</c> that this version serves.</summary>
    public static IReadOnlyList<string> Kinds { get; } = ["serial"];

    /// <exception cref="NotSupportedException">The kind of connection is not served.</exception>
    /// <exception cref="ArgumentException">The connection is missing or has a value that is not allowed.</exception>
    public static ILink Create(DeviceOptions device, TimeProvider time, ILogger logger)
    {
        var connection = device.Connection
            ?? throw new ArgumentException($"Device \"{device.Id}\" has no \"connection\"; a live device needs one.", nameof(device));
        return connection.Kind switch
        {
            "serial" => Reconnecting(new SerialSessions(SerialPlan.For(device, connection), new SerialPortControl(), time)),
            _ => throw new NotSupportedException(
                $"Device \"{device.Id}\": connection.kind \"{connection.Kind}\" is not served by this version; it serves: {string.Join(", ", Kinds)}."),
        };

        ReconnectingLink Reconnecting(ISessionSource source) => new(device.Id, source, time, logger, LinkTimings.Default);
    }
}
