namespace CaptureAgent.Protocol;

/// <summary>Turns one line (without its ending) or one frame into a reading. Pure; never throws on any bytes.</summary>
public interface IDecoder<TReading>
    where TReading : struct
{
    /// <param name="line">A whole line, or a whole frame.</param>
    /// <param name="reading">Default unless the fault is <see cref="LineFault.None"/>.</param>
    LineFault Decode(ReadOnlySpan<byte> line, out TReading reading);
}
