using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Feeding.Batches;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Feeding.ProbeChecks;

/// <summary>Tells what a check of a probe found, and lets the probe's later readings profit from it.</summary>
internal static class ProbeCheckTelling
{
    public static void Tell(DateTimeOffset at, string device, string kind, decimal shown, decimal expected, BatchBook book, List<StationEvent> events)
    {
        const decimal tolerance = (decimal)GuidedCheck.ToleranceCelsius;
        var error = shown - expected;
        var ok = Math.Abs(error) <= tolerance;
        var found = FormattableString.Invariant($"{device} shows {shown:0.00} °C at {expected:0.00} °C ({kind}): off by {error:+0.00;-0.00;0.00} °C, and {tolerance:0.0} °C are allowed.");
        var id = book.NextId("probe-check", at);
        events.Add(new ProbeCheckEvent(at, device, kind, shown, expected, error, tolerance, ok, found) { Id = id });
        book.CorrectionOf(device).Add(new ProbeCheckRow(id, at, "", "", device, kind, (int)(shown * 1000), (int)(expected * 1000), (int)(tolerance * 1000)));
        if (!ok)
        {
            events.Add(new AlertEvent(at, "probe-out-of-tolerance", null, device,
                $"{found} Do the check once more, with care. If it stays so, take the probe out of service: its readings are not corrected, and every batch that it measures is marked."));
        }
    }
}
