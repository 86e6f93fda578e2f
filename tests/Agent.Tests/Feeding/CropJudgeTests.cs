using CaptureAgent.Agent.Feeding;
using CaptureAgent.Agent.Growth;
using Xunit;

namespace CaptureAgent.Agent.Tests.Feeding;

public sealed class CropJudgeTests
{
    private static readonly CropClock NoFeed = new(null, 0, TimeSpan.FromHours(4), null, false);

    private static readonly ExpectedWeight Known = new(200, 0.02, 14);

    /// <summary>At a residual SD of 2 %, a threshold of 5 % has 0.6 % false alarms and misses 6.7 % of 8 % steps and 0.6 % of 10 % steps: normal tail areas of 2.5, 1.5 and 2.5 SD.</summary>
    [Theory]
    [InlineData(0.049, false)]
    [InlineData(0.051, true)]
    public void Two_and_a_half_deviations_are_strong(double excess, bool strong)
    {
        var evidence = Judge((decimal)(200 * Math.Exp(excess)));
        Assert.Equal(strong, CropJudge.IsStrong(evidence));
        Assert.Equal("weight-and-clock", evidence.Basis);
    }

    [Fact]
    public void A_steady_chick_still_must_be_nearer_to_a_feed_than_to_an_empty_crop() =>
        Assert.False(CropJudge.IsStrong(CropJudge.Judge(NoFeed, 206m, 0, 24, Known with { Deviation = 0.008 })));

    [Theory]
    [InlineData(7)]
    [InlineData(2)]
    public void In_the_first_week_the_verdict_rests_on_the_feed_clock_and_says_so(int age)
    {
        var evidence = CropJudge.Judge(NoFeed, 230m, 0, age, Known);
        Assert.Equal("feed-clock", evidence.Basis);
        Assert.Contains("rests on the feed clock", evidence.Text, StringComparison.Ordinal);
        Assert.False(CropJudge.IsStrong(evidence));
    }

    [Fact]
    public void A_chick_that_scatters_too_much_or_of_whom_too_little_is_known_is_judged_by_the_clock()
    {
        Assert.Equal("feed-clock", CropJudge.Judge(NoFeed, 230m, 0, 24, Known with { Deviation = 0.045 }).Basis);
        Assert.Equal("feed-clock", CropJudge.Judge(NoFeed, 230m, 0, 24, null).Basis);
        Assert.Equal("feed-clock", CropJudge.Judge(NoFeed, 230m, 0, null, Known).Basis);
    }

    [Fact]
    public void Food_is_the_likelier_the_heavier_the_chick_and_the_nearer_the_feed()
    {
        double[] byWeight = [.. ((decimal[])[196, 200, 206, 210, 216, 222]).Select(grams => Judge(grams).FoodProbability)];
        Assert.Equal(byWeight.Order(), byWeight);
        Assert.True(byWeight[0] < 0.03 && byWeight[^1] > 0.95);

        double[] byClock = [.. ((double[])[8, 4, 3, 2, 1, 0.2]).Select(hours => CropJudge.Judge(NoFeed with { SinceFeed = TimeSpan.FromHours(hours) }, 200m, 0, 5, null).FoodProbability)];
        Assert.Equal(byClock.Order(), byClock);
        Assert.True(byClock[0] < 0.1 && byClock[^1] > 0.9);
    }

    [Fact]
    public void A_small_feed_is_gone_sooner_than_an_ordinary_one()
    {
        var clock = NoFeed with { SinceFeed = TimeSpan.FromHours(1) };
        Assert.True(CropJudge.Judge(clock with { LastIntakeGrams = 6 }, 200m, 0, 5, null).FoodProbability < CropJudge.Judge(clock, 200m, 0, 5, null).FoodProbability - 0.2);
    }

    [Fact]
    public void What_the_keeper_saw_goes_before_the_weight() =>
        Assert.Equal("keeper", CropJudge.Judge(NoFeed with { SeenFull = true }, 190m, 0, 24, Known).Basis);

    private static CropEvidence Judge(decimal grams) => CropJudge.Judge(NoFeed, grams, 0, 24, Known);
}
