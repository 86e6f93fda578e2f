using CaptureAgent.Simulators.Physics.Scales;

namespace CaptureAgent.Simulators.Instruments.Encoders;

/// <summary>Writes a reading as one family of scales does, line ending included. Written apart from the decoders, so that one cannot hide the other's mistake.</summary>
public interface IScaleEncoder
{
    /// <summary>Whether lines go out by themselves, or only when asked for.</summary>
    bool TalksUnasked { get; }

    string Encode(ScaleSample sample);
}
