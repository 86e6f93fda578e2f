using System.Globalization;
using CaptureAgent.Agent.Configuration;

namespace CaptureAgent.Agent.Checks;

/// <summary>Does the computer know what time it is? A board without a clock chip starts years back until the network has told it.</summary>
internal static class ClockCheck
{
    /// <summary>No run of this version can have been earlier.</summary>
    private static readonly DateTimeOffset Earliest = new(2025, 1, 1, 0, 0, 0, TimeSpan.Zero);

    public static void Look(NurseryCalendar calendar, StationOptions station, DateTimeOffset now, CheckReport report)
    {
        var text = string.Create(
            CultureInfo.InvariantCulture,
            $"{calendar.Local(now):yyyy-MM-dd HH:mm:ss} in {station.TimeZone}; nursery day {calendar.DayOf(now):yyyy-MM-dd}, which began at {station.DayStartsAt:HH\\:mm}");
        if (now < Earliest)
            report.Wrong("clock", $"{text}. That cannot be right: let the computer get its time from the network (`timedatectl`), or set it.");
        else
            report.Good("clock", text);
    }
}
