using CaptureAgent.Simulators.Physics.Scales;

namespace CaptureAgent.Simulators.Instruments.Encoders;

/// <summary><c>ST,GS,+  186.4  g</c>: state, gross or net, sign, value, unit; OL for what cannot be shown.</summary>
/// <remarks>The shape is common to many gram scales; from memory, no one source.</remarks>
public sealed class HeaderComma : IScaleEncoder
{
    public bool TalksUnasked => true;

    public string Encode(ScaleSample sample)
    {
        var mark = sample.IsNet ? "NT" : "GS";
        if (sample.Range is not ShownRange.Within)
            return $"OL,{mark},{(sample.Range is ShownRange.Over ? '+' : '-')}9999999 {Digits.UnitOf(sample.Unit),2}\r\n";
        var state = sample.Stable is false ? "US" : "ST";
        return $"{state},{mark},{(sample.Value < 0 ? '-' : '+')}{Digits.Unsigned(sample.Value, 7)} {Digits.UnitOf(sample.Unit),2}\r\n";
    }
}
