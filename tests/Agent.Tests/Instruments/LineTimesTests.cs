using CaptureAgent.Agent.Instruments;
using Xunit;

namespace CaptureAgent.Agent.Tests.Instruments;

public sealed class LineTimesTests
{
    private static readonly DateTimeOffset Start = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);

    [Fact]
    public void A_lump_of_ten_lines_is_spread_over_the_second_before_it()
    {
        var times = new LineTimes();
        for (var i = 0; i < 100; i++)
            times.Spread(Start.AddSeconds(i * 0.1), 1);
        times.Spread(Start.AddSeconds(10.9), 10);
        var seconds = Enumerable.Range(0, 10).Select(times.Of).ToArray();
        Assert.Equal(0.9, seconds[^1] - seconds[0], 0.02);
        Assert.Equal(10.9, seconds[^1] - Start.ToUnixTimeMilliseconds() / 1000.0 - 62135596800, 0.01);
    }

    [Fact]
    public void Lines_never_go_back_before_the_piece_that_came_earlier()
    {
        var times = new LineTimes();
        times.Spread(Start, 1);
        times.Spread(Start.AddSeconds(0.05), 5);
        Assert.True(times.Of(0) > Start.UtcTicks / 1e7);
    }
}
