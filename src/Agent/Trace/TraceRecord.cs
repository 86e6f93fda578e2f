namespace CaptureAgent.Agent.Trace;

/// <summary>One thing that a device did: bytes that came from it, or its link going down or up. Live and replayed alike.</summary>
/// <param name="At">UTC. Never goes backwards from one record to the next.</param>
/// <param name="Device">The device's id in station.json.</param>
/// <param name="Bytes">As they came: half a line, or several.</param>
/// <param name="Source">GATT characteristic or service-data UUID (short form), or "hid"; null for text.</param>
/// <param name="Link">Set instead of <paramref name="Bytes"/>.</param>
/// <param name="Detail">Why the link is down, and what to do, for people.</param>
/// <param name="Cause">The same as one word, of <see cref="Links.LinkCause"/>.</param>
internal sealed record TraceRecord(
    DateTimeOffset At, string Device, ReadOnlyMemory<byte> Bytes = default, string? Source = null, LinkChange? Link = null, string? Detail = null, string? Cause = null);

internal enum LinkChange
{
    Down,
    Up,
}
