using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

/// <summary>The liner is straightened, or slips, just before the chick comes: its new level is the tare.</summary>
public sealed class SlipTests
{
    [Theory]
    [InlineData(0.2, 0.9)]
    [InlineData(0.2, 1.5)]
    [InlineData(0.2, 2.2)]
    [InlineData(-0.2, 0.9)]
    [InlineData(-0.2, 1.5)]
    [InlineData(-0.2, 2.2)]
    public void A_slip_of_two_divisions_is_in_the_tare(double slip, double seconds)
    {
        var tare = 8.2 + slip;
        var scene = new Scene().Towel().Scan("CN-0321").Hold(3, 8.2).Hold(seconds, tare).Chick(58.7, tare: tare, seconds: 15, noise: 0.1);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        Assert.InRange((double)scene.TheWeighing.TareGrams!.Value, tare - 0.06, tare + 0.06);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 58.6m, 58.8m);
    }

    /// <summary>A hand at the pan's edge, gone again before the chick comes.</summary>
    [Fact]
    public void What_went_back_is_no_slip()
    {
        var scene = new Scene().Towel().Scan("CN-0321").Hold(3, 8.2).Hold(1.2, 8.4).Hold(2, 8.2).Chick(58.7, seconds: 15, noise: 0.1);
        Assert.Equal(8.2m, Math.Round(scene.TheWeighing.TareGrams!.Value, 1));
    }
}
