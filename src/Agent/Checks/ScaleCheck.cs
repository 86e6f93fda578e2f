using System.Globalization;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Checks;

/// <summary>What the known mass has said of each scale, and when it should be asked again. Warns; a round is not stopped by it.</summary>
internal static class ScaleCheck
{
    private static readonly TimeSpan Often = TimeSpan.FromDays(7);

    public static void Look(StationOptions station, string storePath, TimeProvider time, CheckReport report)
    {
        var scales = station.Devices.Where(device => device.Role == "scale").ToList();
        if (scales.Count == 0)
            return;
        StoreCheck.Use(storePath, time, store =>
        {
            foreach (var scale in scales)
                Look(scale, station.Codes.Cards.Check, store, time.GetUtcNow(), report);
        });

        report.Note("Before a round: switch the scale on half an hour early, level it (the bubble in its ring), clean and dry the pan (common practice, no source).");
    }

    private static void Look(DeviceOptions scale, string card, CaptureStore? store, DateTimeOffset now, CheckReport report)
    {
        if (scale.CheckMassGrams is null)
        {
            report.Note($"{scale.Id}: no check mass; write what yours weighs into station.json, as in \"checkMassGrams\": 200, and the card {card} checks the scale with it.");
            return;
        }

        var how = $"Scan {card}, then put the mass on the pan.";
        if (ScaleHistory.Of(store?.ScaleChecks(scale.Id, DateTimeOffset.MinValue) ?? [], now) is not { } history)
        {
            report.Warn(scale.Id, $"never checked with its mass. {how}");
            return;
        }

        const string Mend = "level it, let it warm up, see that mass and pan are clean";
        const string Else = "If it stays so, call whoever services the scale; do not adjust the weight of any chick.";
        var said = Describe(history);
        if (!history.Last.IsWithinTolerance)
            report.Warn(scale.Id, $"{said}. Out of tolerance: {Mend}. {how} {Else}");
        else if (history.Scatters)
            report.Warn(scale.Id, $"{said}. The same mass is weighed too differently from check to check: see that it stands firm, out of draughts, and {Mend}. {how} {Else}");
        else if (history.WeeksLeft is { } weeks)
            report.Warn(scale.Id, string.Create(CultureInfo.InvariantCulture, $"{said}. At this rate it is out of tolerance in about {weeks * 7:0} days: {Mend}. {how} {Else}"));
        else if (now - history.Last.At > Often)
            report.Warn(scale.Id, $"{said}. That was more than {Often.TotalDays:0} days ago. {how}");
        else
            report.Good(scale.Id, said);
    }

    private static string Describe(ScaleHistory history)
    {
        var last = history.Last;
        var text = string.Create(CultureInfo.InvariantCulture,
            $"last check {last.At:yyyy-MM-dd HH:mm} UTC: {last.Milligrams / 1000m:0.0##} g for {last.ExpectedMilligrams / 1000m:0.0##} g, off by {last.ErrorMilligrams / 1000m:0.0##} g of {last.ToleranceMilligrams / 1000m:0.0##} g allowed");
        if (history.RepeatabilityGrams is { } deviation)
            text += string.Create(CultureInfo.InvariantCulture, $"; repeatability {deviation:0.000} g");
        if (history.DriftGramsPerWeek is { } drift)
            text += string.Create(CultureInfo.InvariantCulture, $"; drift {drift:+0.000;-0.000;0.000} ± {history.DriftStandardError:0.000} g a week");
        return text;
    }
}
