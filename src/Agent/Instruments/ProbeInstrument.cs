using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Feeding;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Protocol;
using CaptureAgent.Protocol.Probes;

namespace CaptureAgent.Agent.Instruments;

/// <summary>A temperature probe.</summary>
internal sealed class ProbeInstrument(DeviceOptions device)
    : Instrument(device, TimeSpan.FromSeconds(device.SilentAfterSeconds ?? (device.Dialect == "bthome" ? AdvertiserSilentSeconds : DefaultSilentSeconds)))
{
    private const double DefaultSilentSeconds = 30;

    /// <summary>What lives of a small battery advertises every few minutes at the least (common practice, no source).</summary>
    private const double AdvertiserSilentSeconds = 300;

    private readonly IReadingStream<ProbeReading> stream = Streams.Probe(device);
    private readonly bool silenceIsConfigured = device.SilentAfterSeconds is not null;
    private readonly ProbeWatch watch = new();

    protected override void OnBytes(DateTimeOffset at, string? source, ReadOnlySpan<byte> bytes, List<StationEvent> events)
    {
        if (source == "2a21")
        {
            OnInterval(bytes);
            return;
        }

        while (stream.TryTake(source, ref bytes, out var reading, out var fault))
        {
            if (fault != LineFault.None)
                Refused++;
            else if (watch.Take(at, reading) is { } seen)
                events.Add(new ProbeEvent(at, Id, reading.Celsius, seen.UncertaintyCelsius, seen.Settled && !reading.IsIntermediate));
        }

        OnBattery(at, stream.BatteryPercent, events);
    }

    protected override void OnLinkChange(DateTimeOffset at, LinkChange change)
    {
        stream.Reset();
        watch.Reset();
    }

    // A thermometer that measures every minute is not silent after half of one.
    private void OnInterval(ReadOnlySpan<byte> bytes)
    {
        const int Missed = 3;
        if (!silenceIsConfigured && MeasurementInterval.Read(bytes) is { } seconds)
            SilentAfter = seconds == 0 ? null : TimeSpan.FromSeconds(Math.Max(DefaultSilentSeconds, Missed * seconds));
    }
}
