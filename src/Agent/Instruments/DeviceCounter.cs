using CaptureAgent.Protocol.Frames;

namespace CaptureAgent.Agent.Instruments;

/// <summary>A device's counter, which wraps, as seconds that only rise.</summary>
internal sealed class DeviceCounter(FrameClock clock)
{
    private readonly long modulus = 1L << 8 * clock.Field.Width;
    private long? last;
    private long counts;

    public void Reset() => last = null;

    /// <summary>Seconds since the first frame; null where the frame has no counter.</summary>
    /// <param name="isRepeated">The count is that of the frame before.</param>
    public double? Read(ReadOnlySpan<byte> frame, out bool isRepeated)
    {
        isRepeated = false;
        if (!clock.Field.TryRead(frame, out var count))
            return null;
        var step = last is { } before ? (count - before + modulus) % modulus : 1;
        isRepeated = step == 0;
        last = count;
        counts += step;
        return counts * (double)clock.Milliseconds / 1000;
    }
}
