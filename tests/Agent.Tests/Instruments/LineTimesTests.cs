using CaptureAgent.Agent.Instruments;
using Xunit;

namespace CaptureAgent.Agent.Tests.Instruments;

public sealed class LineTimesTests
{
    private static readonly DateTimeOffset Start = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);

    [Fact]
    public void A_lump_is_spread_over_the_time_in_which_it_was_sent()
    {
        var times = new LineTimes();
        for (var i = 0; i < 100; i++)
            times.Next(Start.AddSeconds(i * 0.1));
        double[] lump = [.. Enumerable.Range(0, 10).Select(i => times.Next(Start.AddSeconds(10.9 + i * 0.0001)))];
        Assert.Equal(0.9, lump[^1] - lump[0], 0.05);
        Assert.Equal(Start.AddSeconds(10.9).UtcTicks / 1e7, lump[^1], 0.1);
    }

    [Fact]
    public void The_first_lumps_of_a_link_already_tell_the_interval()
    {
        // Twenty lines a second, from the first on in lumps of 0.3 to 0.7 s: within one of them more and more lines have come in the same time.
        var times = new LineTimes();
        var random = new Random(5);
        double door = 0.6, off = 0;
        for (var i = 0; i < 120; i++)
        {
            var sent = i * 0.05;
            while (door < sent)
                door += 0.3 + 0.4 * random.NextDouble();
            var error = times.Next(Start.AddSeconds(door)) - Start.UtcTicks / 1e7 - sent;
            off = door > 0.6 ? Math.Max(off, Math.Abs(error)) : 0;
        }

        Assert.InRange(off, 0, 0.2);
    }

    [Fact]
    public void Lines_in_time_keep_their_time()
    {
        var times = new LineTimes();
        var worst = 0.0;
        for (var i = 0; i < 500; i++)
        {
            var at = Start.AddSeconds(i * 0.1 + i % 3 * 0.01);
            worst = Math.Max(worst, Math.Abs(times.Next(at) - at.UtcTicks / 1e7));
        }

        Assert.InRange(worst, 0, 0.03);
    }

    [Fact]
    public void A_device_that_samples_unevenly_is_believed_unless_the_link_brings_lumps()
    {
        var times = new LineTimes();
        var random = new Random(5);
        double at = 0, off = 0, offAfterLump = 0;
        for (var i = 0; i < 400; i++)
        {
            // The 200th waits for the two after it.
            at = i is 200 or 201 ? 20.2 : i * 0.1 + random.NextDouble() * 0.05;
            var error = Math.Abs(times.Next(Start.AddSeconds(at)) - Start.AddSeconds(at).UtcTicks / 1e7);
            (off, offAfterLump) = i switch
            {
                < 200 => (Math.Max(off, error), offAfterLump),
                > 202 and < 260 => (off, Math.Max(offAfterLump, error)),
                _ => (off, offAfterLump),
            };
        }

        Assert.Equal(0, off, 1e-3);
        Assert.InRange(offAfterLump, 0.01, 0.1);
    }

    [Fact]
    public void After_a_silence_a_line_was_sent_when_it_came()
    {
        var times = new LineTimes();
        for (var i = 0; i < 100; i++)
            times.Next(Start.AddSeconds(i * 0.1));
        Assert.Equal(Start.AddSeconds(20).UtcTicks / 1e7, times.Next(Start.AddSeconds(20)), 0.001);
    }

    [Fact]
    public void Moments_rise_whatever_comes()
    {
        var times = new LineTimes();
        var random = new Random(3);
        double before = 0, at = 0;
        for (var i = 0; i < 2000; i++)
        {
            at += random.NextDouble() < 0.1 ? random.NextDouble() * 3 : 0;
            var now = times.Next(Start.AddSeconds(at));
            Assert.True(now > before);
            before = now;
        }
    }
}
