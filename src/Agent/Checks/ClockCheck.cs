using System.Globalization;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Round;

namespace CaptureAgent.Agent.Checks;

/// <summary>Does the computer know what time it is? A board without a clock chip starts years back until the network has told it.</summary>
internal static class ClockCheck
{
    /// <summary>No run of this version can have been earlier.</summary>
    private static readonly DateTimeOffset Earliest = new(2025, 1, 1, 0, 0, 0, TimeSpan.Zero);

    public static void Look(StationOptions station, NurseryDay days, DateTimeOffset now, CheckReport report)
    {
        var local = TimeZoneInfo.ConvertTime(now, TimeZoneInfo.FindSystemTimeZoneById(station.TimeZone));
        var text = string.Create(
            CultureInfo.InvariantCulture,
            $"{local:yyyy-MM-dd HH:mm:ss} in {station.TimeZone}; nursery day {days.Of(now):yyyy-MM-dd}, which began at {station.DayStartsAt:HH\\:mm}");
        if (now < Earliest)
            report.Wrong("clock", $"{text}. That cannot be right: let the computer get its time from the network (`timedatectl`), or set it.");
        else
            report.Good("clock", text);
    }
}
