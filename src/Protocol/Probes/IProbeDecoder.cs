namespace CaptureAgent.Protocol.Probes;

/// <summary>Turns one line or one frame of a probe into a temperature.</summary>
public interface IProbeDecoder : IDecoder<ProbeReading>;
