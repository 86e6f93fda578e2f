using CaptureAgent.Agent.Weighing;
using CaptureAgent.Protocol.Scales;
using Xunit;

namespace CaptureAgent.Agent.Tests.Weighing;

/// <summary>A tub on a slow scale is still on its way when the chick comes.</summary>
public sealed class CoveredLinerTests
{
    [Fact]
    public void Its_tare_is_where_it_would_have_come_to_rest()
    {
        // One simulated placing: a tub of 245.3 g behind two stages of 0.39 s, five readings a second.
        ReadOnlySpan<double> shown =
        [
            0, 0, 0, 0, 0, 0.3, 21.1, 64.6, 110.5, 148.2, 176.8, 198.9, 213.7, 224.5, 231.7, 236.3, 239.6, 241.6, 243.0, 243.9, 244.4, 244.8, 245.0, 245.1, 245.2,
            246.9, 257.4, 277.6, 298.1, 315.5, 329.3, 339.1, 345.9, 350.7, 354.0, 356.3,
        ];
        var pan = New(0.1);
        for (var i = 0; i < shown.Length; i++)
            Show(pan, 0.1 + i * 0.2, shown[i]);

        IsOn(pan, 245.3, since: 5.1);
    }

    [Fact]
    public void Though_nothing_was_seen_of_the_bare_pan_but_two_readings()
    {
        // One simulated placing: 113.5 g behind two stages of 0.45 s, two readings a second.
        ReadOnlySpan<double> shown = [0, 0, 2.8, 45.5, 80.9, 99.4, 107.9, 111.3, 112.7, 113.2, 122.0, 160.3, 189.2, 215.4, 232.0, 239.6, 242.9, 244.3];
        var pan = New(0.1);
        for (var i = 0; i < shown.Length; i++)
            Show(pan, 0.25 + i * 0.5, shown[i]);

        IsOn(pan, 113.5, since: 5.25);
    }

    [Fact]
    public void It_is_waited_for_as_long_as_it_moves_in_one_direction()
    {
        // Two equal stages of 0.9 s, 1 - (1 + x)exp(-x), slower than any that is fitted; two readings a second.
        var pan = New(0.1);
        for (var i = 0; i < 22; i++)
            Show(pan, i * 0.5, i < 1 ? 0 : 243 * (1 - (1 + i * 0.5 / 0.9) * Math.Exp(-i * 0.5 / 0.9)));

        Assert.True(pan.Rest is { Lined: true });
        Assert.Equal(242.9, pan.Rest.Grams, 0.2);
    }

    [Fact]
    public void A_chick_that_was_let_go_on_a_coarse_scale_had_no_tub_under_it()
    {
        // One simulated placing: a towel of 7 g that two divisions hide, and a hand that held the chick still for a second; seconds and grams.
        ReadOnlySpan<(double At, int Grams)> shown =
        [
            (0.034, 0), (0.3, 0), (0.5, 0), (0.7, 0), (0.9, 0), (1.1, 0), (1.3, 4), (1.5, 6), (1.7, 6), (1.9, 8), (2.1, 6), (2.3, 6), (2.5, 6), (2.7, 6), (2.9, 6), (3.1, 8), (3.3, 8), (3.5, 6), (3.7, 6),
            (3.9, 6), (4.1, 8), (4.3, 8), (4.5, 8), (4.7, 8), (4.9, 6), (5.1, 6), (5.3, 8), (5.5, 6), (5.7, 8), (5.9, 8), (6.1, 12), (6.3, 48), (6.5, 108), (6.7, 136),
            (6.9, 154), (7.1, 162), (7.3, 166), (7.5, 166), (7.7, 168), (7.9, 180), (8.1, 244), (8.3, 274), (8.5, 288), (8.7, 294), (8.9, 298), (9.1, 300),
        ];
        var pan = New(2);
        foreach (var (at, grams) in shown)
            Show(pan, at, grams);
        Assert.InRange(pan.Load?.Tare?.Grams ?? 0, 5, 9);
    }

    private static void IsOn(Pan pan, double tub, double since)
    {
        Assert.NotNull(pan.Load?.Tare);
        Assert.True(pan.Load.Tare.Lined);
        Assert.Equal(tub, pan.Load.Tare.Grams, 2 * pan.Load.Tare.Uncertainty);
        Assert.InRange(pan.Load.Tare.Uncertainty, 0.02, 0.3);
        Assert.Equal(since, pan.Load.Seconds, 0.01);
    }

    private static Pan New(double division) => new(() => new PlateauSettler()) { Division = division };

    private static void Show(Pan pan, double seconds, double grams) =>
        pan.Add(new PanSample(seconds, Math.Round((decimal)(grams / pan.Division)) * (decimal)pan.Division, LoadRange.Within, Stability.Unknown, WeightMark.Unknown));
}
