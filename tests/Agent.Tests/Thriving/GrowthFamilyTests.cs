using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Tests.Support;
using CaptureAgent.Agent.Thriving;
using Xunit;

namespace CaptureAgent.Agent.Tests.Thriving;

/// <summary>Healthy chicks that grow as no published curve and no allometry has it.</summary>
public sealed class GrowthFamilyTests
{
    private const int Days = 40;

    /// <summary>Richards' curve with s = 0.9 and K = 0.4 a day to 38 g: twice as fast as the allometry has it for that weight (0.489 · 38^-0.231 = 0.21).</summary>
    /// <remarks>The one published series of the pink cockatoo ends at 260 g, long before growth does: the asymptote fitted to it is 668 g with a standard error of 683.</remarks>
    [Theory]
    [InlineData("Inventus novus", 0.9, 0.4, 38)]
    [InlineData("Inventus novus", 0.6, 0.16, 400)]
    [InlineData("Inventus novus", 0.3, 0.09, 1000)]
    [InlineData("Pink cockatoo", 1, 0.15, 260)]
    [InlineData("Pink cockatoo", 0.7, 0.14, 300)]
    public void Of_chicks_of_a_species_whose_final_weight_no_reference_knows_none_carries_a_red(string species, double shape, double pace, double final)
    {
        var random = new Random(31);
        List<string?> reds = [];
        var chicks = Enumerable.Range(0, 20).Select(i =>
        {
            var size = Math.Exp(0.08 * random.NextNormal());
            return new WatchedChick(SimulatedCourse.Code(i), species, SimulatedCourse.First.AddDays(-1 - i), null, null,
                [.. Enumerable.Range(0, Days).Select(day => Weight(day, size * Grams(1 + i + day) * Math.Exp(0.02 * random.NextNormal())))]);
        }).ToList();
        RoomReview.Of(chicks, PublishedGrowth.Instance, SimulatedCourse.First.AddDays(Days - 1), Tuning.Usual, morning =>
            reds.AddRange(Agent.Thriving.Findings.Of(morning).Where(finding => finding.Severity == Severities.Red).Select(finding => finding.Chick)));
        // The budget of 0.2 for 100 chicks a morning, for 20 in 40 mornings.
        Assert.InRange(reds.Count, 0, 1);

        // From 4 % of the final weight on the day of hatching.
        double Grams(double age) => final * Math.Pow(1 + (Math.Pow(0.04, -shape) - 1) * Math.Exp(-pace * age), -1 / shape);
    }

    [Fact]
    public void A_far_off_pace_stays_possible()
    {
        Assert.Equal(0, HeavyTailed.Log(0), 0.1);
        Assert.True(HeavyTailed.Log(4) > -4 * 4 / 2.0 + 2);
        Assert.True(HeavyTailed.Log(1) > HeavyTailed.Log(2));
    }

    private static MorningWeight Weight(int day, double grams) => new(SimulatedCourse.First.AddDays(day), Math.Round((decimal)grams, 1), null, 1);
}
