using CaptureAgent.Agent.Round;
using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

public sealed class NurseryDayTests
{
    [Theory]
    [InlineData("Etc/UTC", "2026-03-02T02:59:59Z", "2026-03-01")]
    [InlineData("Etc/UTC", "2026-03-02T03:00:00Z", "2026-03-02")]
    [InlineData("America/New_York", "2026-03-02T07:59:59Z", "2026-03-01")]
    [InlineData("America/New_York", "2026-03-02T08:00:00Z", "2026-03-02")]
    // Summer time begins at 02:00 local on 2026-03-08 (tz database); the day still starts at 03:00 on the clock.
    [InlineData("America/New_York", "2026-03-08T06:59:59Z", "2026-03-07")]
    [InlineData("America/New_York", "2026-03-08T07:00:00Z", "2026-03-08")]
    public void A_nursery_day_starts_at_a_local_hour(string zone, string at, string day) => Assert.Equal(
        DateOnly.Parse(day, System.Globalization.CultureInfo.InvariantCulture),
        new NurseryDay(TimeZoneInfo.FindSystemTimeZoneById(zone), new TimeOnly(3, 0)).Of(DateTimeOffset.Parse(at, System.Globalization.CultureInfo.InvariantCulture)));
}
