using CaptureAgent.Simulators.Physics.Scales;

namespace CaptureAgent.Simulators.Instruments.Encoders;

/// <summary><c>+   186.4 g  </c>: sign, value, unit; the unit is blank while the scale finds itself unstable; dashes for what cannot be shown.</summary>
/// <remarks>From memory of public line shapes, no one source.</remarks>
public sealed class SignValue : IScaleEncoder
{
    public bool TalksUnasked => true;

    public string Encode(ScaleSample sample)
    {
        if (sample.Range is not ShownRange.Within)
            return $"{(sample.Range is ShownRange.Over ? '+' : '-')} --------     \r\n";
        var unit = sample.Stable is false ? "" : Digits.UnitOf(sample.Unit);
        return $"{(sample.Value < 0 ? '-' : '+')}{Digits.Unsigned(sample.Value, 9)} {unit,-3}\r\n";
    }
}
