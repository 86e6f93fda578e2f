using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Tests.Support;
using CaptureAgent.Agent.Thriving;
using Xunit;

namespace CaptureAgent.Agent.Tests.Thriving;

public sealed class RoomNoiseTests
{
    [Theory]
    [InlineData(0.01, 0)]
    [InlineData(0.02, 0.7)]
    [InlineData(0.03, 0.3)]
    public void A_room_s_noise_and_its_correlation_are_learnt_from_its_mornings(double deviation, double correlation)
    {
        const int Days = 25;
        var random = new Random(21);
        var chicks = Enumerable.Range(0, 60).Select(i =>
        {
            var off = deviation * random.NextNormal();
            return SimulatedCourse.Chick(FormattableString.Invariant($"LB-{i:0000}"), 5 + i % 8, Days, (day, _) =>
            {
                off = correlation * off + deviation * Math.Sqrt(1 - correlation * correlation) * random.NextNormal();
                return SimulatedCourse.Curve(5 + i % 8 + day) * Math.Exp(off);
            });
        }).ToList();
        var learnt = RoomReview.Of(chicks, PublishedGrowth.Instance, SimulatedCourse.First.AddDays(Days - 1), Tuning.Usual).Noise;
        Assert.Equal(deviation, learnt.Deviation, 0.2 * deviation);
        Assert.Equal(correlation, learnt.Correlation, 0.15);
    }
}
