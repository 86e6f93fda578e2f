namespace CaptureAgent.Agent.Configuration;

/// <summary>The station's local time and its nursery days.</summary>
internal sealed class NurseryCalendar(StationOptions station)
{
    private readonly TimeZoneInfo zone = TimeZoneInfo.FindSystemTimeZoneById(station.TimeZone);

    public DateTimeOffset Local(DateTimeOffset at) => TimeZoneInfo.ConvertTime(at, zone);

    /// <summary>The nursery day, named by the local date on which it starts.</summary>
    public DateOnly DayOf(DateTimeOffset at)
    {
        var local = Local(at);
        var date = DateOnly.FromDateTime(local.DateTime);
        return TimeOnly.FromDateTime(local.DateTime) < station.DayStartsAt ? date.AddDays(-1) : date;
    }
}
