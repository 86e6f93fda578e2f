using CaptureAgent.Agent.Weighing;
using CaptureAgent.Protocol.Scales;
using Xunit;

namespace CaptureAgent.Agent.Tests.Weighing;

/// <summary>A pan that a fan shakes, from the first reading on.</summary>
public sealed class UnrestTests
{
    private const double Interval = 0.1;

    [Fact]
    public void A_liner_that_strays_as_the_bare_pan_did_is_the_tare()
    {
        // A hum that uneven sampling makes random: half a gram wide, five times what a still pan may show.
        var pan = Humming(0.25, bareSeconds: 2, linerSeconds: 3);
        Assert.True(pan.Rest is { Lined: true });
        Assert.Equal(13, pan.Rest.Grams, 0.25);
        Assert.Equal(0, pan.Rest.Bare!.Grams, 0.25);
    }

    [Fact]
    public void What_strays_on_a_pan_that_was_still_is_no_liner()
    {
        var pan = Humming(0.25, bareSeconds: 2, linerSeconds: 3, bareHum: 0);
        Assert.False(pan.Rest is { Lined: true });
    }

    [Fact]
    public void A_pan_that_is_touched_is_not_taken_for_one_that_a_fan_shakes()
    {
        var pan = Humming(3, bareSeconds: 2, linerSeconds: 3);
        Assert.Null(pan.Rest);
    }

    private static Pan Humming(double grams, double bareSeconds, double linerSeconds, double? bareHum = null)
    {
        var random = new Random(7);
        var pan = new Pan(() => new PlateauSettler()) { Division = 0.1 };
        for (var i = 0; i * Interval < bareSeconds + linerSeconds; i++)
        {
            var isBare = i * Interval < bareSeconds;
            var hum = (isBare ? bareHum ?? grams : grams) * (2 * random.NextDouble() - 1);
            pan.Add(new PanSample(i * Interval, Math.Round((decimal)((isBare ? 0 : 13) + hum), 1), LoadRange.Within, Stability.Unknown, WeightMark.Unknown));
        }

        return pan;
    }
}
