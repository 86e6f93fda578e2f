using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Tests.Support;
using CaptureAgent.Agent.Thriving;
using Xunit;

namespace CaptureAgent.Agent.Tests.Thriving;

public sealed class ShortfallTests
{
    private const int Days = 13, First = 5;

    /// <summary>A likelihood ratio exceeds c with a probability of at most 1/c where nothing is wrong (Markov's inequality: its mean is one).</summary>
    [Fact]
    public void Of_healthy_chicks_no_more_than_a_share_of_one_in_c_exceeds_a_ratio_of_c()
    {
        var random = new Random(11);
        List<double> ratios = [];
        for (var i = 0; i < 300; i++)
            ratios.Add(Judge(random, _ => 0));
        Assert.InRange(ratios.Average(ratio => ratio > Math.Log(5) ? 1.0 : 0.0), 0, 1.0 / 5);
        Assert.InRange(ratios.Average(ratio => ratio > Math.Log(20) ? 1.0 : 0.0), 0, 1.0 / 20);
    }

    [Fact]
    public void Growth_that_stopped_two_mornings_ago_is_told_by_most()
    {
        var random = new Random(12);
        var stopped = Enumerable.Range(0, 200).Count(_ => Judge(random, day => day < Days - 2 ? 0 : -(Log(First + day) - Log(First + Days - 3))) > Math.Log(10));
        Assert.True(stopped > 140, $"{stopped} of 200");
    }

    private static double Log(int age) => Math.Log(SimulatedCourse.Curve(age));

    // ln of the ratio on the last morning of a chick on the published curve with independent noise of 2 %.
    private static double Judge(Random random, Func<int, double> off)
    {
        var noise = new NoiseLevel(0.02, 0);
        var priors = new GrowthPriors(PublishedGrowth.Instance, Tuning.Usual);
        var watch = new ChickWatch(new WatchedChick("LB-0001", SimulatedCourse.Species, SimulatedCourse.First.AddDays(-First), null, null, []), Tuning.Usual);
        for (var day = 0; day < Days; day++)
        {
            var normal = random.NextNormal();
            var grams = (decimal)Math.Exp(Log(First + day) + off(day) + 0.02 * normal);
            var weight = new MorningWeight(SimulatedCourse.First.AddDays(day), grams, null, null);
            watch.PassTo(weight.Day, noise);
            if (watch.Compare(weight) is { } morning)
                watch.Take(morning, 0, PublishedGrowth.Instance);
            else
                watch.Start(weight, priors, noise);
        }

        return watch.Shortfall.LogRatio;
    }
}
