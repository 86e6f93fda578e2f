using CaptureAgent.Agent.Configuration;

namespace CaptureAgent.Agent.Links;

/// <summary>What a connection of station.json must have before a link can be made of it.</summary>
internal static class ConnectionParts
{
    /// <param name="key">The key under <c>connection</c>.</param>
    /// <param name="needer">What kind of device needs it, with its article.</param>
    /// <exception cref="ArgumentException">There is none.</exception>
    public static string Required(DeviceOptions device, string? value, string key, string needer) => string.IsNullOrWhiteSpace(value)
        ? throw new ArgumentException($"Device \"{device.Id}\": connection.{key} is missing; {needer} needs one.", nameof(device))
        : value;
}
