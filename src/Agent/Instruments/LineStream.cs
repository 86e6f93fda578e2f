using CaptureAgent.Protocol;

namespace CaptureAgent.Agent.Instruments;

/// <summary>Lines, from wherever they come: a serial port, or a characteristic that sends them in pieces of twenty bytes.</summary>
internal sealed class LineStream<TReading>(IDecoder<TReading> decoder) : IReadingStream<TReading>
    where TReading : struct
{
    private readonly LineFramer framer = new();

    public bool TryTake(string? source, ref ReadOnlySpan<byte> bytes, out TReading reading, out LineFault fault)
    {
        reading = default;
        fault = LineFault.None;
        if (!framer.TryTakeLine(ref bytes, out var line))
            return false;
        fault = decoder.Decode(line, out reading);
        return true;
    }

    public void Reset() => framer.Reset();
}
