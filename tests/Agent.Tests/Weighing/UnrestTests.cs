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

    [Fact]
    public void A_few_readings_of_the_bare_pan_that_stray_both_ways_show_a_fan()
    {
        var pan = Shown(0.25, 0.1, -0.2, -0.1, 0, 7.3, 196.8, 193.7, 195.3, 195.4, 195.7, 195.7, 195.8, 195.4, 195.4, 195.8, 195.8, 195.8, 195.4, 195.5);
        Assert.True(pan.Rest is { Lined: true });
        Assert.Equal(195.6, pan.Rest.Grams, 0.2);
    }

    [Fact]
    public void Two_readings_of_the_bare_pan_that_stray_let_a_liner_that_strays_on_about_one_level_be_the_tare()
    {
        // One simulated placing: a hum of 15 Hz read twice a second, of which the bare pan showed nothing but its first two readings.
        var pan = Shown(0.5, 0, 0.2, 2.5, 7.3, 8.0, 7.7, 7.9, 7.6, 7.6, 8.1, 8.0, 7.8);
        Assert.True(pan.Rest is { Lined: true });
        Assert.Equal(7.8, pan.Rest.Grams, 0.2);
    }

    [Fact]
    public void What_strays_by_more_than_a_fan_makes_of_a_liner_is_none()
    {
        var pan = Shown(0.5, 0, 0.2, 2.5, 7.3, 8.4, 7.0, 8.6, 7.2, 8.5, 7.1, 8.4, 7.3);
        Assert.False(pan.Rest is { Lined: true });
    }

    [Fact]
    public void A_hum_of_which_a_pan_shows_one_side_more_than_the_other_is_a_fans_still()
    {
        // One simulated placing: a hum of 16 Hz read eight times a second; seconds and grams.
        ReadOnlySpan<(double At, double Grams)> shown =
        [
            (0.011, 0), (0.193, -0.3), (0.319, -0.5), (0.422, -0.5), (0.549, -0.6), (0.700, 0.4), (0.823, 0.5), (0.926, -0.8), (1.078, 0.9), (1.163, 0.1),
            (1.320, 4.1), (1.438, 6.5), (1.552, 6.1), (1.682, 6.7), (1.797, 6.1), (1.919, 5.9), (2.080, 6.6), (2.187, 7.4), (2.303, 7.0), (2.444, 7.3),
            (2.575, 6.5), (2.688, 7.4), (2.822, 6.7), (2.954, 6.1), (3.080, 6.0), (3.211, 5.8), (3.316, 6.6), (3.421, 7.4), (3.577, 5.8), (3.695, 5.9),
        ];
        var pan = new Pan(() => new PlateauSettler()) { Division = 0.1 };
        foreach (var (at, grams) in shown)
            Show(pan, at, grams);
        Assert.True(pan.Rest is { Lined: true });
        Assert.Equal(6.5, pan.Rest.Grams, 0.3);
    }

    [Fact]
    public void The_beginning_of_a_landing_is_no_fan()
    {
        var pan = Shown(0.5, 0, 0, 0.3, 5.9, 9.6, 12.2, 13, 13.4, 13.6, 13.7);
        Assert.Equal(0.5, pan.Least);
    }

    [Fact]
    public void A_reading_that_falls_by_a_division_while_a_liner_comes_to_rest_is_no_lift()
    {
        // Two equal stages of 0.45 s, fifty readings a second, every seventh a division lower.
        const double Tau = 0.45;
        const double Interval = 0.02;
        var pan = new Pan(() => new PlateauSettler()) { Division = 0.1 };
        List<double> levels = [];
        for (var i = -50; i < 300; i++)
        {
            Show(pan, i * Interval, i < 0 ? 0 : Behind(i * Interval) - (i % 7 == 0 ? 0.1 : 0));
            if (levels.Count > 0 || pan.Rest is { Lined: true })
                levels.Add(pan.Rest?.Grams ?? double.NaN);
        }

        Assert.All(levels, level => Assert.Equal(237.2, level, 0.15));

        static double Behind(double seconds) => 237.2 * (1 - (1 + seconds / Tau) * Math.Exp(-seconds / Tau));
    }

    private static Pan Shown(double interval, params double[] grams)
    {
        var pan = new Pan(() => new PlateauSettler()) { Division = 0.1 };
        for (var i = 0; i < grams.Length; i++)
            Show(pan, i * interval, grams[i]);
        return pan;
    }

    private static void Show(Pan pan, double seconds, double grams) =>
        pan.Add(new PanSample(seconds, Math.Round((decimal)grams, 1), LoadRange.Within, Stability.Unknown, WeightMark.Unknown));

    private static Pan Humming(double grams, double bareSeconds, double linerSeconds, double? bareHum = null)
    {
        var random = new Random(7);
        var pan = new Pan(() => new PlateauSettler()) { Division = 0.1 };
        for (var i = 0; i * Interval < bareSeconds + linerSeconds; i++)
        {
            var isBare = i * Interval < bareSeconds;
            var hum = (isBare ? bareHum ?? grams : grams) * (2 * random.NextDouble() - 1);
            Show(pan, i * Interval, (isBare ? 0 : 13) + hum);
        }

        return pan;
    }
}
