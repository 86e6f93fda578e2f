using CaptureAgent.Agent.Hosting;
using Xunit;

namespace CaptureAgent.Agent.Tests.Hosting;

public sealed class SupervisionTests
{
    [Theory]
    [InlineData(null, null)]
    [InlineData("", null)]
    [InlineData("0", null)]
    [InlineData("soon", null)]
    [InlineData("30000000", 15.0)]
    public void The_watchdog_is_fed_at_half_of_its_period(string? microseconds, double? seconds) =>
        Assert.Equal(seconds, Supervision.Period(microseconds)?.TotalSeconds);
}
