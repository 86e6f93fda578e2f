using System.Globalization;
using CaptureAgent.Protocol.FrameFinding;

namespace CaptureAgent.Agent.FrameFinding;

/// <summary>What is known of a recording: <c>100@12.5</c>: from second 12.5 on, 100 g lay still (or the probe was at 100 °C).</summary>
internal static class KnownMarks
{
    /// <summary>So long a load is listened to.</summary>
    public const double Seconds = 5;

    /// <summary>False with what is wrong.</summary>
    public static bool TryRead(IReadOnlyList<string> marks, out List<KnownTime> times, out string fault)
    {
        times = [];
        fault = "";
        foreach (var mark in marks)
        {
            var parts = mark.Split('@');
            if (parts.Length != 2
                || !decimal.TryParse(parts[0], NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var known) || Math.Abs(known) > 1_000_000m
                || !double.TryParse(parts[1], NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var from) || !(from < 1e9))
            {
                fault = $"'{mark}' is no KNOWN@SECONDS, such as 100@12.5: 100 g lay still from second 12.5 of the recording on.";
                return false;
            }

            times.Add(new KnownTime(known, from, from + Seconds));
        }

        return true;
    }

    /// <summary>What is still missing before anything can be found; null if nothing is.</summary>
    public static string? Missing(IReadOnlyList<KnownTime> times, bool isProbe)
    {
        var different = times.Select(time => time.Known).Distinct().ToList();
        if (isProbe)
            return different.Count < 2 ? "Two known temperatures are needed, 10 °C apart or more: melting ice, and warm water beside a thermometer that you trust." : null;
        return !different.Contains(0) || different.Count < 3 ? "An empty pan (0) and two known masses are needed." : null;
    }
}
