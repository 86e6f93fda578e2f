using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Feeding.Batches;
using CaptureAgent.Agent.Trace;

namespace CaptureAgent.Agent.Instruments;

/// <summary>One device as the core sees it: bytes and link changes in, what they mean handed on. Pure.</summary>
internal abstract class Instrument(string id, TimeSpan? silentAfter)
{
    private string? state;
    private string? detail;
    private DateTimeOffset? heard;

    public string Id { get; } = id;

    /// <summary>When the device will be reported as silent, unless it speaks; null if it never is.</summary>
    public DateTimeOffset? Due => state is null or "up" ? heard + silentAfter : null;

    /// <summary>Lines that were refused, since the start.</summary>
    public long Refused { get; protected set; }

    public static Instrument Create(DeviceOptions device, Round.Round? round, Round.Scanning scanning, BatchWatch? watch) => device.Role switch
    {
        "scale" => new ScaleInstrument(device, round!),
        "probe" => new ProbeInstrument(device, watch!),
        _ => new ScannerInstrument(device, scanning),
    };

    public void Accept(TraceRecord record, List<StationEvent> events)
    {
        if (record.Link is { } link)
        {
            OnLink(record, link, events);
            return;
        }

        heard = record.At;
        if (state == "silent")
            Change(record.At, "up", null, events);
        OnBytes(record.At, record.Bytes.Span, events);
    }

    public void Fire(DateTimeOffset at, List<StationEvent> events)
    {
        if (Due is not { } due || due > at)
            return;
        Change(at, "silent", $"Nothing heard for {silentAfter!.Value.TotalSeconds:0} s. Is it switched on, and set to send by itself?", events);
        OnSilent(at);
    }

    protected abstract void OnBytes(DateTimeOffset at, ReadOnlySpan<byte> bytes, List<StationEvent> events);

    /// <summary>The link went down or came back: a half line is no line.</summary>
    protected abstract void OnLinkChange(DateTimeOffset at, LinkChange change, List<StationEvent> events);

    protected virtual void OnSilent(DateTimeOffset at)
    {
    }

    private void OnLink(TraceRecord record, LinkChange link, List<StationEvent> events)
    {
        heard = link == LinkChange.Up ? record.At : null;
        OnLinkChange(record.At, link, events);
        Change(record.At, link == LinkChange.Up ? "up" : "down", record.Detail, events);
    }

    private void Change(DateTimeOffset at, string now, string? why, List<StationEvent> events)
    {
        if (now == state && why == detail)
            return;
        state = now;
        detail = why;
        events.Add(new DeviceEvent(at, Id, now, why));
    }
}
