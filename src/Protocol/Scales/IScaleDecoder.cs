namespace CaptureAgent.Protocol.Scales;

/// <summary>Turns one line (without its ending) of one dialect into a reading. Pure; never throws on any bytes.</summary>
public interface IScaleDecoder
{
    LineFault Decode(ReadOnlySpan<byte> line, out ScaleReading reading);
}
