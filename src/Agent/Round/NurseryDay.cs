namespace CaptureAgent.Agent.Round;

/// <summary>Which nursery day a moment belongs to: named by the local date on which it starts, at a configured local hour and not at midnight.</summary>
internal sealed class NurseryDay(TimeZoneInfo zone, TimeOnly startsAt)
{
    public string Zone => zone.Id;

    public DateOnly Of(DateTimeOffset at)
    {
        var local = TimeZoneInfo.ConvertTime(at, zone).DateTime;
        var date = DateOnly.FromDateTime(local);
        return TimeOnly.FromDateTime(local) < startsAt ? date.AddDays(-1) : date;
    }
}
