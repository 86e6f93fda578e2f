using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Feeding.Batches;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Protocol;
using CaptureAgent.Protocol.Probes;

namespace CaptureAgent.Agent.Instruments;

/// <summary>A temperature probe.</summary>
internal sealed class ProbeInstrument(DeviceOptions device, BatchWatch watch)
    : Instrument(device, TimeSpan.FromSeconds(device.SilentAfterSeconds ?? (device.Dialect == "bthome" ? AdvertiserSilentSeconds : DefaultSilentSeconds)))
{
    private const double DefaultSilentSeconds = 30;

    /// <summary>What lives of a small battery advertises every few minutes at the least (common practice, no source).</summary>
    private const double AdvertiserSilentSeconds = 300;

    private readonly IReadingStream<ProbeReading> stream = Streams.Probe(device);
    private readonly bool silenceIsConfigured = device.SilentAfterSeconds is not null;
    private readonly List<ProbeReading> together = [];
    private DateTimeOffset? before;

    protected override void OnBytes(DateTimeOffset at, string? source, ReadOnlySpan<byte> bytes, List<StationEvent> events)
    {
        if (source == "2a21")
        {
            OnInterval(bytes);
            return;
        }

        together.Clear();
        while (stream.TryTake(source, ref bytes, out var reading, out var fault))
        {
            if (fault == LineFault.None)
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
        OnBattery(at, stream.BatteryPercent, events);
    }

    protected override void OnLinkChange(DateTimeOffset at, LinkChange change, List<StationEvent> events)
    {
        stream.Reset();
        before = null;
        if (change == LinkChange.Down)
            watch.OnLinkLost(at, events);
    }

    // A thermometer that measures every minute is not silent after half of one.
    private void OnInterval(ReadOnlySpan<byte> bytes)
    {
        const int Missed = 3;
        if (!silenceIsConfigured && MeasurementInterval.Read(bytes) is { } seconds)
            SilentAfter = seconds == 0 ? null : TimeSpan.FromSeconds(Math.Max(DefaultSilentSeconds, Missed * seconds));
    }
}
