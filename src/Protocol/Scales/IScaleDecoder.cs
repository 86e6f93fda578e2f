namespace CaptureAgent.Protocol.Scales;

/// <summary>Turns one line or one frame of a scale into a weight.</summary>
public interface IScaleDecoder : IDecoder<ScaleReading>;
