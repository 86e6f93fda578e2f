using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Feeding.Batches;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Protocol;
using CaptureAgent.Protocol.Probes;

namespace CaptureAgent.Agent.Instruments;

/// <summary>A temperature probe that sends lines.</summary>
internal sealed class ProbeInstrument(DeviceOptions device, BatchWatch watch)
    : Instrument(device.Id, TimeSpan.FromSeconds(device.SilentAfterSeconds ?? DefaultSilentSeconds))
{
    private const double DefaultSilentSeconds = 30;

    private readonly LineFramer framer = new();
    private readonly TextProbe decoder = new();
    private readonly List<ProbeReading> together = [];
    private DateTimeOffset? before;

    protected override void OnBytes(DateTimeOffset at, ReadOnlySpan<byte> bytes, List<StationEvent> events)
    {
        together.Clear();
        while (framer.TryTakeLine(ref bytes, out var line))
        {
            if (decoder.Decode(line, out var reading) == LineFault.None)
                together.Add(reading);
            else
                Refused++;
        }

        // Readings that come in one lump were taken one after another since the last.
        var interval = together.Count > 1 && before is { } last ? Math.Min((at - last).TotalSeconds / together.Count, 2) : 0;
        for (var i = 0; i < together.Count; i++)
            watch.Take(at, (together.Count - 1 - i) * interval, together[i], events);
        if (together.Count > 0)
            before = at;
    }

    protected override void OnLinkChange(DateTimeOffset at, LinkChange change, List<StationEvent> events)
    {
        framer.Reset();
        before = null;
        if (change == LinkChange.Down)
            watch.OnLinkLost(at, events);
    }
}
