using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Feeding;
using Xunit;

namespace CaptureAgent.Agent.Tests.Feeding;

public sealed class EmptyingGapTests
{
    [Theory]
    [InlineData(0, 1.5)]
    [InlineData(5, 1.5)]
    [InlineData(6, 2.5)]
    [InlineData(20, 2.5)]
    [InlineData(21, 4)]
    [InlineData(null, 4)]
    public void The_crop_is_given_longer_with_age_and_longest_where_the_age_is_not_known(int? age, double hours) =>
        Assert.Equal(TimeSpan.FromHours(hours), new EmptyingGap([]).For(age));

    [Fact]
    public void A_nursery_may_set_its_own() =>
        Assert.Equal(TimeSpan.FromHours(3), new EmptyingGap([new EmptyingStep { ThroughDay = 10, Hours = 2 }, new EmptyingStep { Hours = 3 }]).For(11));
}
