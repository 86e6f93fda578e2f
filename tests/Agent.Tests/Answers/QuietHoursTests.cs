using CaptureAgent.Agent.Answers;
using Xunit;

namespace CaptureAgent.Agent.Tests.Answers;

public sealed class QuietHoursTests
{
    private static readonly TimeZoneInfo Lisbon = TimeZoneInfo.FindSystemTimeZoneById("Europe/Lisbon");

    [Theory]
    [InlineData("2026-01-10T20:59:59Z", 60)]
    [InlineData("2026-01-10T21:00:00Z", 15)]
    [InlineData("2026-01-11T02:00:00Z", 15)]
    [InlineData("2026-01-11T05:59:59Z", 15)]
    [InlineData("2026-01-11T06:00:00Z", 60)]
    [InlineData("2026-07-10T20:30:00Z", 15)] // summer time: 21:30 at the station
    public void Over_midnight_by_the_stations_own_clock(string at, int loudness) =>
        Assert.Equal(loudness, new QuietHours(new(21, 0), new(6, 0), 60, 15, Lisbon).LoudnessAt(DateTimeOffset.Parse(at, System.Globalization.CultureInfo.InvariantCulture)));

    [Fact]
    public void Without_them_it_is_never_quiet() =>
        Assert.False(new QuietHours(null, null, 60, 15, Lisbon).Holds(new(2026, 1, 11, 2, 0, 0, TimeSpan.Zero)));

    [Theory]
    [InlineData("Urgent", 15, true)]
    [InlineData("Urgent", 0, false)]
    [InlineData("Refused", 15, false)]
    public void In_them_only_what_is_urgent_is_said(string tone, int quiet, bool said) =>
        Assert.Equal(said, new QuietHours(new(21, 0), new(6, 0), 60, quiet, Lisbon).MaySpeak(new(new(2026, 1, 11, 2, 0, 0, TimeSpan.Zero), Enum.Parse<Answer>(tone), null)));
}
