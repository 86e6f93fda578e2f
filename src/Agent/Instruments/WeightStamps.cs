using CaptureAgent.Protocol;
using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Agent.Instruments;

/// <summary>Knows a weight (2A9D) that is sent again, as by a scale that was cut off before it was confirmed, by its time stamp: it would else count for the next chick.</summary>
/// <remarks>The clock need not be right for that, it must only run: one that stands (two weights, one time) is not used any more.</remarks>
internal sealed class WeightStamps
{
    private WeightMeasurement last;
    private bool stands;

    /// <summary>To be asked once for each frame.</summary>
    public bool IsRepeated(ReadOnlySpan<byte> frame)
    {
        if (WeightMeasurement.Read(frame, out var measurement) != LineFault.None || measurement.Time is not { } time)
            return false;
        var isSame = last.Time == time;
        var isEqual = isSame && (last.Value, last.Unit) == (measurement.Value, measurement.Unit);
        stands |= isSame && !isEqual;
        last = measurement;
        return isEqual && !stands;
    }
}
