using CaptureAgent.Agent.Weighing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Weighing;

/// <summary>The level of a thing that has not come to rest yet, for the scale's filter is slow.</summary>
public sealed class SettlingTests
{
    private const double Division = 0.1;
    private static readonly double Noise = Math.Sqrt(0.13) * Division;

    [Theory]
    [InlineData(0.2, 1)]
    [InlineData(0.35, 1)]
    [InlineData(0.3, 2)]
    [InlineData(0.45, 2)]
    public void A_tub_s_weight_is_known_before_its_tail_is_over(double seconds, int stages)
    {
        // Steps through one and two equal first-order stages: 1 - exp(-x) and 1 - (1 + x)exp(-x), x = t/tau.
        var recent = new Recent();
        for (var i = 0; i < 45; i++)
        {
            var x = i * 0.1 / seconds;
            var share = stages == 1 ? 1 - Math.Exp(-x) : 1 - (1 + x) * Math.Exp(-x);
            recent.Add(i * 0.1, Math.Round(192.53 * share / Division) * Division);
        }

        var settling = new Settling();
        Assert.True(settling.TryFit(recent, 2, 0, double.NegativeInfinity, Noise));
        Assert.Equal(192.53, settling.Level, 0.12);
        Assert.InRange(Math.Abs(settling.Level - 192.53), 0, 3 * settling.Error + 0.05);
    }

    [Fact]
    public void What_lies_still_is_its_mean()
    {
        var recent = new Recent();
        for (var i = 0; i < 30; i++)
            recent.Add(i * 0.1, 8.2 + (i % 3 == 0 ? 0.1 : 0));
        var settling = new Settling();
        Assert.True(settling.TryFit(recent, 2, 0, double.NegativeInfinity, Noise));
        Assert.Equal(8.2 + 0.1 / 3, settling.Level, 0.02);
    }

    [Fact]
    public void What_moves_comes_to_no_rest()
    {
        var recent = new Recent();
        for (var i = 0; i < 30; i++)
            recent.Add(i * 0.1, 186 + 3 * Math.Sin(i * 0.7));
        Assert.False(new Settling().TryFit(recent, 2, 0, double.NegativeInfinity, Noise));
    }
}
