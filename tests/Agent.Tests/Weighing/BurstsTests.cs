using CaptureAgent.Agent.Weighing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Weighing;

/// <summary>Whole bursts are left out, steps are not.</summary>
public sealed class BurstsTests
{
    [Fact]
    public void What_comes_back_is_a_burst() => Assert.Equal(Passage.EndsBurst, Play(i => i is > 5 and < 15 ? 186 + 30 * Math.Sin(i * 2) : 186));

    [Fact]
    public void What_comes_back_behind_a_slow_filter_is_a_burst() => Assert.Equal(Passage.EndsBurst, Play(i => i > 5 ? 186 + 30 * Math.Exp((6 - i) * 0.2) : 186));

    [Fact]
    public void What_stays_elsewhere_is_a_step() => Assert.Equal(Passage.EndsStep, Play(i => i > 5 ? 150 : 186));

    [Fact]
    public void What_does_not_end_is_motion() => Assert.Equal(Passage.EndsStep, Play(i => i > 5 ? 186 + 30 * Math.Sin(i * 2) : 186));

    [Fact]
    public void Small_motion_counts() => Assert.Equal(Passage.Counts, Play(i => 186 + Math.Sin(i)));

    // The first that is neither counted nor held; counts, if all are.
    private static Passage Play(Func<int, double> grams)
    {
        var bursts = new Bursts();
        for (var i = 0; i < 80; i++)
        {
            var passage = bursts.Add(i * 0.1, grams(i), 186, 5);
            if (passage is Passage.EndsBurst or Passage.EndsStep)
                return passage;
        }

        return Passage.Counts;
    }
}
