using CaptureAgent.Protocol;
using CaptureAgent.Protocol.Frames;

namespace CaptureAgent.Agent.Instruments;

/// <summary>Frames: one notification or one report is one reading.</summary>
/// <param name="decoderOf">The decoder for a source; null where it is not the instrument's.</param>
/// <param name="isRepeated">Whether a frame is one of before, sent again; null: its reading tells nothing of that.</param>
internal sealed class FrameStream<TReading>(Func<string?, IDecoder<TReading>?> decoderOf, FrameClock? clock = null, Func<ReadOnlySpan<byte>, bool>? isRepeated = null) : IReadingStream<TReading>
    where TReading : struct
{
    private readonly DeviceCounter? counter = clock is { } described ? new DeviceCounter(described) : null;

    public double? DeviceSeconds { get; private set; }

    public bool TryTake(string? source, ref ReadOnlySpan<byte> bytes, out TReading reading, out LineFault fault)
    {
        reading = default;
        fault = LineFault.None;
        if (bytes.IsEmpty)
            return false;
        var frame = bytes;
        bytes = default;
        if (decoderOf(source) is not { } decoder)
            return false;
        fault = decoder.Decode(frame, out reading);
        if (fault == LineFault.None && counter is not null)
            fault = Count(frame, ref reading);
        if (fault == LineFault.None && isRepeated?.Invoke(frame) is true)
            (reading, fault) = (default, LineFault.NoValue);
        return true;
    }

    public void Reset()
    {
        counter?.Reset();
        DeviceSeconds = null;
    }

    // A frame with the count of the one before is the same frame, delivered twice.
    private LineFault Count(ReadOnlySpan<byte> frame, ref TReading reading)
    {
        DeviceSeconds = counter!.Read(frame, out var isSame);
        if (!isSame)
            return LineFault.None;
        reading = default;
        return LineFault.NoValue;
    }
}
