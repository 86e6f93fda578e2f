using CaptureAgent.Agent.Hosting;
using CsCheck;
using Xunit;

namespace CaptureAgent.Agent.Tests.Hosting;

public sealed class TimelineTests
{
    private static readonly DateTimeOffset Start = new(2026, 3, 2, 5, 0, 0, TimeSpan.Zero);

    [Fact]
    public void Records_keep_their_order_in_whole_microseconds_and_stand_after_what_has_fired() =>
        Gen.Select(Gen.Long[0, 1_000_000], Gen.Bool).Array[1, 50].Sample(steps =>
        {
            var timeline = new Timeline();
            var (last, fired) = (DateTimeOffset.MinValue, DateTimeOffset.MinValue);
            foreach (var (ticks, fires) in steps)
            {
                var at = Start.AddTicks(ticks);
                if (fires)
                {
                    timeline.Fired(at);
                    fired = at > fired ? at : fired;
                    continue;
                }

                var placed = timeline.Place(at);
                if (placed < last || placed <= fired || placed.Ticks % 10 != 0)
                    return false;
                last = placed;
            }

            return true;
        });

    [Fact]
    public void A_record_in_order_keeps_its_moment() =>
        Assert.Equal(Start.AddMicroseconds(7), new Timeline().Place(Start.AddTicks(75)));

    [Fact]
    public void A_late_record_stands_one_microsecond_after_the_deadline()
    {
        var timeline = new Timeline();
        timeline.Fired(Start);

        Assert.Equal(Start.AddMicroseconds(1), timeline.Place(Start.AddSeconds(-1)));
    }
}
