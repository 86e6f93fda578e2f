using CaptureAgent.Agent.Feeding;
using Xunit;

namespace CaptureAgent.Agent.Tests.Feeding;

public sealed class DailyIntakeTests
{
    /// <summary>83.1, 30.1 and 19.6 % of body weight at days 3, 45 and 92: Groffen, Watson, Hammer and Raidal, J. Avian Med. Surg. 2008 (Spix's macaws, abstract).</summary>
    [Theory]
    [InlineData(1, 0.831)]
    [InlineData(3, 0.831)]
    [InlineData(45, 0.301)]
    [InlineData(92, 0.196)]
    [InlineData(120, 0.196)]
    public void The_day_s_intake_meets_the_published_points(int age, double share) => Assert.Equal(share, DailyIntake.ShareAt(age), 6);

    [Fact]
    public void Between_the_points_it_falls_without_a_step()
    {
        for (var age = 4; age <= 92; age++)
            Assert.InRange(DailyIntake.ShareAt(age) / DailyIntake.ShareAt(age - 1), 0.97, 1);
    }

    /// <summary>At most 10 % of body weight a feed: Harris, Primary avian pediatrics, VIN PR00290; above 10 to 12 % the crop may stop: Rivera 2008.</summary>
    [Theory]
    [InlineData(24, 4, 18.64)]
    [InlineData(45, 2, 18.64)]
    [InlineData(3, 12, 186.4 * 0.831 / 12)]
    [InlineData(92, 3, 186.4 * 0.196 / 3)]
    [InlineData(null, 3, 18.64)]
    public void A_feed_is_its_part_of_the_day_and_never_more_than_a_tenth_of_the_weight(int? age, int feeds, double grams) =>
        Assert.Equal(grams, DailyIntake.FeedGrams(186.4, age, feeds, 10), 6);
}
