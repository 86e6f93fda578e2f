using CaptureAgent.Agent.Weighing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Weighing;

public sealed class UncertaintyTests
{
    [Fact]
    public void A_net_weight_has_the_rounding_of_two_readings()
    {
        // JCGM 100 F.2.2.1: d/sqrt(12) a reading, so 0.408 d for a difference of two.
        Assert.Equal(0.0408, Uncertainty.Combine(0, 0, 0.1, 0), 0.0001);
    }

    [Fact]
    public void Parts_add_in_squares()
    {
        // 0.0408 (resolution), 0.1/sqrt(3) = 0.0577 (accuracy, JCGM 100 4.3.7), 0.05 (repeatability): 0.0866.
        Assert.Equal(0.0866, Uncertainty.Combine(0.05, 0, 0.1, 0.1), 0.0001);
    }

    [Theory]
    [InlineData(20, 0.1, 0.1)]
    [InlineData(186.4, 0.1, 0.5592)]
    [InlineData(900, 5, 5)]
    public void The_band_is_one_division_or_a_third_of_a_percent(double grams, double division, double band) =>
        Assert.Equal(band, Uncertainty.Band(grams, division), 0.0001);
}
