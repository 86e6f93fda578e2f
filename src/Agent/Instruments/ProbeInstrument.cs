using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Feeding;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Protocol;
using CaptureAgent.Protocol.Probes;

namespace CaptureAgent.Agent.Instruments;

/// <summary>A temperature probe that sends lines.</summary>
internal sealed class ProbeInstrument(DeviceOptions device)
    : Instrument(device.Id, TimeSpan.FromSeconds(device.SilentAfterSeconds ?? DefaultSilentSeconds))
{
    private const double DefaultSilentSeconds = 30;

    private readonly LineFramer framer = new();
    private readonly TextProbe decoder = new();
    private readonly ProbeWatch watch = new();

    protected override void OnBytes(DateTimeOffset at, ReadOnlySpan<byte> bytes, List<StationEvent> events)
    {
        while (framer.TryTakeLine(ref bytes, out var line))
        {
            if (decoder.Decode(line, out var reading) != LineFault.None)
                Refused++;
            else if (watch.Take(at, reading) is { } seen)
                events.Add(new ProbeEvent(at, Id, reading.Celsius, seen.UncertaintyCelsius, seen.Settled));
        }
    }

    protected override void OnLinkChange(DateTimeOffset at, LinkChange change)
    {
        framer.Reset();
        watch.Reset();
    }
}
