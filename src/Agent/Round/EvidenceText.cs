using System.Globalization;
using System.Text;
using CaptureAgent.Agent.Weighing;
using CaptureAgent.Protocol.Scales;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Round;

/// <summary>The readings behind a decision, from some seconds before the load came until the decision, as text that will still be readable in ten years.</summary>
/// <remarks>
/// First line: <c>samples/1</c>, then key=value: when the load came (seconds on the axis of the samples), the tare in grams and its uncertainty, the division.
/// Then a line a reading: seconds, grams as shown (or + over, - under), marks: S stable, U unstable; N net, G gross.
/// </remarks>
internal static class EvidenceText
{
    public const string Format = "samples/1";

    public static Evidence Of(Placing placing, in Measured weight)
    {
        var culture = CultureInfo.InvariantCulture;
        var text = new StringBuilder();
        var zero = placing.Samples.Count > 0 ? placing.Samples[0].Seconds : placing.Seconds;
        text.Append(culture, $"{Format} from={zero:F3} placed={placing.Seconds - zero:F3} division={weight.Division:G6}");
        if (weight.Tare is { } tare)
            text.Append(culture, $" tare={tare.Grams:F4} tareUncertainty={tare.Uncertainty:F4}");
        text.Append(culture, $" linkLost={(placing.LinkLost ? 1 : 0)} overflow={placing.Overflow}\n");
        foreach (var sample in placing.Samples)
        {
            text.Append(culture, $"{sample.Seconds - zero:F3} ");
            switch (sample.Range)
            {
                case LoadRange.Overload:
                    text.Append('+');
                    break;
                case LoadRange.Underload:
                    text.Append('-');
                    break;
                default:
                    text.Append(culture, $"{sample.Grams}");
                    break;
            }

            text.Append(sample.Stability switch { Stability.Stable => " S", Stability.Unstable => " U", _ => " " });
            text.Append(sample.Mark switch { WeightMark.Net => "N", WeightMark.Gross => "G", _ => "" });
            text.Append('\n');
        }

        return new Evidence(Format, Encoding.UTF8.GetBytes(text.ToString()));
    }
}
