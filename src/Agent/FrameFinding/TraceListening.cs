using CaptureAgent.Agent.Trace;
using CaptureAgent.Protocol.FrameFinding;
using CaptureAgent.Protocol.Gatt;

namespace CaptureAgent.Agent.FrameFinding;

/// <summary>The frames of one device in a trace.</summary>
internal static class TraceListening
{
    /// <summary>Seconds are counted from the first record of the trace, whatever its device.</summary>
    /// <exception cref="TraceException">The trace is broken.</exception>
    public static List<FrameSample> Read(TraceReader reader, string device)
    {
        var samples = new List<FrameSample>();
        DateTimeOffset? start = null;
        foreach (var record in reader.Read())
        {
            start ??= record.At;
            if (record.Device == device && record.Link is null && KnownCharacteristic.Describe(record.Source, record.Bytes.Span) is null)
                samples.Add(new FrameSample((record.At - start.Value).TotalSeconds, record.Source, record.Bytes));
        }

        return samples;
    }
}
