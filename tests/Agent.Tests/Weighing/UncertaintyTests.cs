using CaptureAgent.Agent.Tests.Support;
using CaptureAgent.Agent.Weighing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Weighing;

public sealed class UncertaintyTests
{
    [Fact]
    public void A_net_weight_of_still_readings_has_the_rounding_of_two()
    {
        // JCGM 100 F.2.2.1: d/sqrt(12) a reading, so 0.408 d for a difference of two.
        var rounding = Uncertainty.Rounding(0.1, 0);
        Assert.Equal(0.0289, rounding, 0.0001);
        Assert.Equal(0.0408, Uncertainty.Combine(rounding, rounding, 0), 0.0001);
    }

    [Fact]
    public void The_rounding_of_readings_that_move_averages_out()
    {
        // What is left of rounding in the mean of many readings with normal noise of a third of a division is its bias, exp(-2·pi²/9) of d/sqrt(12) at most over all offsets
        // (Widrow and Kollár 2008, from memory): checked here by rounding.
        var random = new Random(11);
        double squares = 0;
        for (var offset = 0; offset < 40; offset++)
        {
            double sum = 0;
            for (var i = 0; i < 4000; i++)
                sum += Math.Round(offset / 40.0 + random.NextNormal() / 3) - offset / 40.0;
            squares += sum / 4000 * (sum / 4000) / 40;
        }

        Assert.InRange(Uncertainty.Rounding(1, 1.0 / 3) / Math.Sqrt(squares), 0.7, 4);
        Assert.Equal(0.0289, Uncertainty.Rounding(1, 1), 0.0001);
    }

    [Fact]
    public void Parts_add_in_squares()
    {
        // 0.0408 (resolution), 0.1/sqrt(3) = 0.0577 (accuracy, JCGM 100 4.3.7), 0.05 (repeatability): 0.0866.
        Assert.Equal(0.0866, Uncertainty.Combine(Math.Sqrt(0.05 * 0.05 + 0.0289 * 0.0289), 0.0289, 0.1), 0.0001);
    }

    [Theory]
    [InlineData(20, 0.1, 0.1)]
    [InlineData(186.4, 0.1, 0.5592)]
    [InlineData(900, 5, 5)]
    public void The_band_is_one_division_or_a_third_of_a_percent(double grams, double division, double band) =>
        Assert.Equal(band, Uncertainty.Band(grams, division), 0.0001);

    [Theory]
    [InlineData(200, 0.1, 0.05)]
    [InlineData(900, 0.1, 0.1)]
    [InlineData(2500, 0.1, 0.15)]
    public void A_scale_of_which_nothing_is_said_is_taken_for_one_of_class_two(double gross, double division, double accuracy)
    {
        // OIML R 76-1:2006, table 6, class II: 0.5 e up to 5 000 e, 1 e up to 20 000 e, 1.5 e above.
        Assert.Equal(accuracy, Uncertainty.Accuracy(gross, division), 1e-9);
    }
}
