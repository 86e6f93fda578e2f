namespace CaptureAgent.Protocol.FrameFinding;

/// <summary>One frame that a device sent.</summary>
/// <param name="Seconds">When it came, from any beginning.</param>
/// <param name="Source">The characteristic, or "hid"; null where the device has no such thing.</param>
public readonly record struct FrameSample(double Seconds, string? Source, ReadOnlyMemory<byte> Frame);

/// <summary>A time in which something known lay still on the pan, or the probe was at a known temperature.</summary>
/// <param name="Known">Grams, 0 for an empty pan; degrees Celsius for a probe.</param>
public readonly record struct KnownTime(decimal Known, double FromSeconds, double ThroughSeconds);
