using System.Globalization;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Feeding.ProbeChecks;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Checks;

/// <summary>What ice, boiling water or a reference have said of each probe, and how long ago. Warns; a round is not stopped by it.</summary>
internal static class ProbeCheck
{
    public static void Look(StationOptions station, string storePath, TimeProvider time, CheckReport report)
    {
        var probes = station.Devices.Where(device => device.Role == "probe").ToList();
        if (probes.Count == 0)
            return;
        StoreCheck.Use(storePath, time, store =>
        {
            var checks = store?.ProbeChecks() ?? [];
            foreach (var probe in probes)
                Look(probe, station, checks, time.GetUtcNow(), report);
        });
    }

    private static void Look(DeviceOptions probe, StationOptions station, IReadOnlyList<ProbeCheckRow> checks, DateTimeOffset now, CheckReport report)
    {
        var days = station.Feeding.Batch.ProbeCheckDays;
        var how = $"Scan {station.Codes.Cards.Ice}, then hold the probe in crushed ice and water until the answer comes.";
        if (new ProbeCorrection(probe, days, checks).Last is not { } last)
        {
            report.Warn(probe.Id, $"never checked: every batch is marked so. {how}");
            return;
        }

        var said = string.Create(CultureInfo.InvariantCulture,
            $"last check {last.At:yyyy-MM-dd HH:mm} UTC ({last.Kind}): off by {last.ErrorMillicelsius / 1000m:0.0#} °C of {last.ToleranceMillicelsius / 1000m:0.0#} °C allowed");
        if (!last.IsWithinTolerance)
            report.Warn(probe.Id, $"{said}. Do not trust it with formula: take another, or check it again. {how}");
        else if (now - last.At > TimeSpan.FromDays(days))
            report.Warn(probe.Id, $"{said}. That was more than {days} days ago: every batch is marked as measured by an unchecked probe. {how}");
        else
            report.Good(probe.Id, said);
    }
}
