using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Feeding.Batches;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Protocol.Gatt;

namespace CaptureAgent.Agent.Instruments;

/// <summary>One device as the core sees it: bytes and link changes in, what they mean handed on. Pure.</summary>
internal abstract class Instrument(DeviceOptions device, TimeSpan? silentAfter)
{
    private readonly BatteryWatch battery = new(device.Id, device.BatteryWarnPercent);
    private string? state;
    private string? detail;
    private DateTimeOffset? heard;

    public string Id => Options.Id;

    protected DeviceOptions Options { get; } = device;

    /// <summary>When the device will be reported as silent, unless it speaks; null if it never is.</summary>
    public DateTimeOffset? Due => state is null or "up" ? heard + SilentAfter : null;

    /// <summary>Null: it is never silent.</summary>
    protected TimeSpan? SilentAfter { get; set; } = silentAfter;

    /// <summary>Lines and frames that were refused, since the start.</summary>
    public long Refused { get; protected set; }

    public static Instrument Create(DeviceOptions device, Round.IScaleRound? round, Round.Scanning scanning, BatchWatch? watch) => device.Role switch
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

        if (record.Source == PairingQuestion.Source)
        {
            OnPairing(record, events);
            return;
        }

        // A battery is asked for by the link: it says nothing of whether the device still measures.
        if (record.Source == BluetoothNeeds.BatteryLevel)
        {
            if (BatteryLevel.Read(record.Bytes.Span) is { } percent)
                battery.Take(record.At, percent, events);
            else
                Refused++;
            return;
        }

        // What a device says of itself is no reading, whatever the dialect.
        if (record.Source is { } source && KnownCharacteristic.Introducing.Contains(source))
            return;

        heard = record.At;
        if (state == "silent")
            Change(record.At, "up", null, null, events);
        OnBytes(record.At, record.Source, record.Bytes.Span, events);
    }

    public void Fire(DateTimeOffset at, List<StationEvent> events)
    {
        if (Due is not { } due || due > at)
            return;
        Change(at, "silent", $"Nothing heard for {SilentAfter!.Value.TotalSeconds:0} s. Is it switched on, and set to send by itself?", null, events);
        OnSilent(at);
    }

    /// <param name="source">GATT characteristic or service data UUID, or "hid"; null for text.</param>
    protected abstract void OnBytes(DateTimeOffset at, string? source, ReadOnlySpan<byte> bytes, List<StationEvent> events);

    /// <summary>The device told its state of charge with a reading.</summary>
    protected void OnBattery(DateTimeOffset at, int? percent, List<StationEvent> events)
    {
        if (percent is { } told)
            battery.Take(at, told, events);
    }

    /// <summary>The link went down or came back: a half line is no line.</summary>
    protected abstract void OnLinkChange(DateTimeOffset at, LinkChange change, List<StationEvent> events);

    protected virtual void OnSilent(DateTimeOffset at)
    {
    }

    private void OnPairing(TraceRecord record, List<StationEvent> events)
    {
        if (PairingQuestion.Read(record.Bytes.Span) is not { } question)
            return;
        events.Add(new AlertEvent(record.At, "pairing", null, Id, question.IsToBeConfirmed
            ? $"'{Id}' asks to be paired and should show {question.Number}. Scan the pair card within a minute if it does; if it shows another number, or none, do nothing."
            : $"'{Id}' asks to be paired: enter {question.Number} on it."));
    }

    private void OnLink(TraceRecord record, LinkChange link, List<StationEvent> events)
    {
        heard = link == LinkChange.Up ? record.At : null;
        OnLinkChange(record.At, link, events);
        Change(record.At, link == LinkChange.Up ? "up" : "down", record.Detail, record.Cause, events);
    }

    private void Change(DateTimeOffset at, string now, string? why, string? cause, List<StationEvent> events)
    {
        if (now == state && why == detail)
            return;
        state = now;
        detail = why;
        events.Add(new DeviceEvent(at, Id, now, why, cause));
    }
}
