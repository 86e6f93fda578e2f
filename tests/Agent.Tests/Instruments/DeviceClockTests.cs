using CaptureAgent.Agent.Instruments;
using CaptureAgent.Protocol.Frames;
using Xunit;

namespace CaptureAgent.Agent.Tests.Instruments;

/// <summary>The moments of frames from the device's own clock, however they were delivered.</summary>
public sealed class DeviceClockTests
{
    private static readonly DateTimeOffset Start = new(2026, 3, 2, 5, 40, 0, TimeSpan.Zero);

    [Fact]
    public void Late_deliveries_do_not_move_the_moments()
    {
        var random = new Random(5);
        var clock = new DeviceClock();
        var worst = 0.0;
        for (var i = 0; i < 600; i++)
        {
            // A frame every 100 ms; every fifth comes at once, the others up to 400 ms late.
            var late = i % 5 == 0 ? 0.005 : 0.02 + 0.38 * random.NextDouble();
            var sent = clock.Next(Start.AddSeconds(i * 0.1 + late), i * 0.1);
            if (i > 20)
                worst = Math.Max(worst, Math.Abs(sent - (Start.ToUnixTimeMilliseconds() / 1000.0 + 62135596800 + i * 0.1 + 0.005)));
        }

        Assert.InRange(worst, 0, 0.001);
    }

    [Theory]
    [InlineData(1.002)]
    [InlineData(0.998)]
    public void A_clock_that_runs_fast_or_slow_is_followed(double pace)
    {
        var clock = new DeviceClock();
        var sent = 0.0;
        for (var i = 0; i < 6000; i++)
            sent = clock.Next(Start.AddSeconds(i * 0.1), i * 0.1 * pace);
        Assert.InRange(Start.AddSeconds(599.9).UtcTicks / 1e7 - sent, -0.001, 0.02);
    }

    [Fact]
    public void A_device_that_starts_anew_is_noticed()
    {
        var clock = new DeviceClock();
        for (var i = 0; i < 100; i++)
            clock.Next(Start.AddSeconds(i * 0.1), 5000 + i * 0.1);
        var at = Start.AddSeconds(12);
        Assert.Equal(at.UtcTicks / 1e7, clock.Next(at, 0.1), 3);
    }

    [Fact]
    public void Moments_only_rise_and_never_lie_after_the_arrival()
    {
        var random = new Random(9);
        var clock = new DeviceClock();
        double before = 0, device = 0;
        var now = Start;
        for (var i = 0; i < 2000; i++)
        {
            device += 0.1;
            now = now.AddSeconds(0.2 * random.NextDouble());
            var sent = clock.Next(now, device);
            Assert.True(sent > before);
            before = sent;
        }
    }

    [Fact]
    public void A_counter_wraps_and_a_repeated_count_is_the_same_frame()
    {
        var counter = new DeviceCounter(new FrameClock(new FrameField(0, 1), 100));
        Assert.Equal(0.1, counter.Read([250], out var isRepeated)!.Value, 9);
        Assert.False(isRepeated);
        Assert.Equal(1.1, counter.Read([4], out isRepeated)!.Value, 9);
        Assert.False(isRepeated);
        Assert.Equal(1.1, counter.Read([4], out isRepeated)!.Value, 9);
        Assert.True(isRepeated);
        Assert.Null(counter.Read([], out _));
    }
}
