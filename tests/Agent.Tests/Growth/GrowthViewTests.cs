using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Growth.References;
using CaptureAgent.Store;
using Xunit;

namespace CaptureAgent.Agent.Tests.Growth;

public sealed class GrowthViewTests
{
    private static readonly DateOnly Hatched = new(2026, 2, 6);

    [Fact]
    public void Gain_and_rate_go_over_missing_days()
    {
        var view = View(new Chick("AM-0147", "Ara macao", Hatched), (20, 100m), (23, 121m));

        Assert.Equal(23, view.Weights[1].AgeDays);
        Assert.Equal(21, view.Weights[1].GainPercent!.Value, 1e-9);
        Assert.Equal(100 * Math.Log(1.21) / 3, view.Weights[1].RatePercent!.Value, 1e-9);
        Assert.Null(view.Weights[0].GainPercent);
    }

    [Fact]
    public void A_weight_on_the_published_median_is_the_fiftieth_centile()
    {
        var median = new ReferenceLibrary([]).Of("Ara macao")!.At(30)!.Value.M;
        var weight = View(new Chick("AM-0147", "Ara macao", Hatched), (30, (decimal)Math.Round(median, 3))).Weights[0];

        Assert.Equal(50, weight.Centile!.Value, 0.1);
        Assert.Equal(0, weight.Z!.Value, 0.01);
    }

    [Fact]
    public void Without_a_hatch_date_ages_count_from_the_first_weight_and_no_reference_is_shown()
    {
        var view = View(new Chick("AM-0147", "Ara macao", null), (20, 100m), (23, 121m));

        Assert.False(view.HasAge);
        Assert.Equal([0, 3], view.Weights.Select(weight => weight.AgeDays));
        Assert.Null(view.Reference);
    }

    [Fact]
    public void A_chick_without_weights_has_neither_fit_nor_place()
    {
        var view = View(new Chick("AM-0147", "Ara macao", Hatched));

        Assert.Empty(view.Weights);
        Assert.Empty(view.Fits);
        Assert.Null(view.BestFit);
    }

    [Fact]
    public void Weights_after_the_peak_do_not_bend_the_curve()
    {
        List<(int, decimal)> weights = [];
        for (var age = 5; age <= 75; age++)
        {
            var grams = 400 / (1 + Math.Exp(-0.16 * (Math.Min(age, 55) - 18))) * (age > 55 ? Math.Pow(0.995, age - 55) : 1);
            weights.Add((age, (decimal)Math.Round(grams, 1)));
        }

        var fit = View(new Chick("AM-0147", "Ara macao", Hatched), [.. weights]).BestFit!;

        Assert.Equal("logistic", fit.Model.Name);
        Assert.Equal(400, fit.Asymptote, 1.0);
        Assert.InRange(fit.Weights, 48, 55);
    }

    private static GrowthView View(Chick chick, params (int Age, decimal Grams)[] weights) => GrowthView.Of(
        chick,
        weights.Length == 0 ? null : new GrowthRecord(chick.Code, [.. weights.Select(weight => Hatched.AddDays(weight.Age))], [.. weights.Select(weight => (long)(weight.Grams * 1000))]),
        new ReferenceLibrary([]));
}
