using System.Text;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Protocol;

namespace CaptureAgent.Agent.Instruments;

/// <summary>A code scanner or a transponder reader; both send lines. It speaks only when it reads, so that it is never silent.</summary>
internal sealed class ScannerInstrument(DeviceOptions device, Scanning scanning) : Instrument(device, null)
{
    private readonly LineFramer framer = new(tabEnds: true);
    private readonly bool isTransponder = device.Dialect == "transponder";

    protected override void OnBytes(DateTimeOffset at, string? source, ReadOnlySpan<byte> bytes, List<StationEvent> events)
    {
        while (framer.TryTakeLine(ref bytes, out var line))
        {
            var text = Encoding.Latin1.GetString(line).Trim();
            if (text.Length == 0)
                continue;
            if (isTransponder)
                scanning.OnTransponder(at, Id, text, events);
            else
                scanning.OnLine(at, Id, text, events);
        }
    }

    protected override void OnLinkChange(DateTimeOffset at, LinkChange change, List<StationEvent> events) => framer.Reset();
}
