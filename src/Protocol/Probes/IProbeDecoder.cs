namespace CaptureAgent.Protocol.Probes;

/// <summary>Turns one line (without its ending) into a temperature. Pure; never throws on any bytes.</summary>
public interface IProbeDecoder
{
    LineFault Decode(ReadOnlySpan<byte> line, out ProbeReading reading);
}
