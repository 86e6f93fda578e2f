using CaptureAgent.Agent.Growth.Fitting;
using CaptureAgent.Agent.Growth.Models;
using CaptureAgent.Agent.Tests.Support;
using Xunit;

namespace CaptureAgent.Agent.Tests.Growth.Fitting;

public sealed class FitterTests
{
    private static readonly double[] Days = [.. Enumerable.Range(0, 60)];

    public static TheoryData<string> Models => [.. GrowthModel.All.Select(model => model.Name)];

    [Theory]
    [MemberData(nameof(Models))]
    public void A_curve_without_noise_is_found_again(string name)
    {
        var model = GrowthModel.All.Single(each => each.Name == name);
        double[] truth = model.Parameters == 4 ? [412, 0.13, 21, 1.4] : [412, 0.13, 21];

        var fit = new Fitter().Fit(model, Days, [.. Days.Select(day => model.Grams(day, truth))])!;

        for (var i = 0; i < truth.Length; i++)
            Assert.Equal(1, fit.Parameters[i] / truth[i], 1e-6);
    }

    [Theory]
    [MemberData(nameof(Models))]
    public void The_derivatives_are_those_of_the_curve(string name)
    {
        var model = GrowthModel.All.Single(each => each.Name == name);
        foreach (var shape in new[] { 2.5, 1.0 + 1e-7, 0.8 })
        {
            double[] at = model.Parameters == 4 ? [412, 0.13, 21, shape] : [412, 0.13, 21];
            foreach (var day in new[] { 12.0, 21, 33, 70 })
                AssertDerivatives(model, day, at);
        }
    }

    [Fact]
    public void Richards_s_curve_holds_the_three_others()
    {
        foreach (var day in Days)
        {
            Assert.Equal(GrowthModel.Logistic.Grams(day, [412, 0.13, 21]), GrowthModel.Richards.Grams(day, [412, 0.13, 21, 2]), 1e-9);
            Assert.Equal(GrowthModel.Gompertz.Grams(day, [412, 0.13, 15]), GrowthModel.Richards.Grams(day, [412, 0.13, 15, 1]), 1e-9);
            Assert.Equal(GrowthModel.VonBertalanffy.Grams(day, [412, 0.06, 15]), GrowthModel.Richards.Grams(day, [412, 0.06, 15, 2.0 / 3]), 1e-9);
        }
    }

    [Theory]
    [InlineData("logistic", 0.5)]
    [InlineData("Gompertz", 1 / Math.E)]
    [InlineData("von Bertalanffy", 8.0 / 27)]
    public void The_inflection_lies_at_the_published_part_of_the_asymptote(string name, double part) =>
        Assert.Equal(part, GrowthModel.All.Single(model => model.Name == name).Grams(21, [1, 0.13, 21]), 1e-12);

    [Theory]
    [MemberData(nameof(Models))]
    public void Between_ten_and_ninety_per_cent_lies_the_time_told(string name)
    {
        var model = GrowthModel.All.Single(each => each.Name == name);
        double[] at = model.Parameters == 4 ? [1, 0.13, 21, 1.4] : [1, 0.13, 21];

        Assert.Equal(model.Days10To90(at), AgeAt(model, at, 0.9) - AgeAt(model, at, 0.1), 1e-6);
    }

    // Each way in which a weight goes wrong: another chick's, exchanged digits, a slipped point, a crop that was full.
    [Theory]
    [InlineData(30, 0.5)]
    [InlineData(40, 1.45)]
    [InlineData(20, 10)]
    [InlineData(45, 0.1)]
    [InlineData(50, 0.85)]
    public void One_bad_weight_is_left_out_and_named(int day, double factor)
    {
        var weights = Noisy(seed: 5);
        var undisturbed = new Fitter().Fit(GrowthModel.Logistic, Days, weights)!;
        weights[day] *= factor;

        var fit = new Fitter().Fit(GrowthModel.Logistic, Days, weights)!;

        Assert.Equal([day], fit.LeftOut);
        Assert.Equal(1, fit.Asymptote / undisturbed.Asymptote, 0.01);
    }

    [Fact]
    public void Of_a_hundred_chicks_with_good_weights_hardly_two_lose_one() =>
        Assert.InRange(Enumerable.Range(0, 200).Count(seed => new Fitter().Fit(GrowthModel.Logistic, Days, Noisy(seed))!.LeftOut.Count > 0), 0, 4);

    [Fact]
    public void A_chick_that_has_not_yet_slowed_down_is_not_identifiable_and_is_told_why()
    {
        var fit = new Fitter().Fit(GrowthModel.Logistic, Days.AsSpan(0, 12), Noisy(seed: 3).AsSpan(0, 12))!;

        Assert.False(fit.IsIdentifiable);
        Assert.Matches("no bend|larger than that weight", fit.Doubt);
    }

    [Fact]
    public void A_chick_that_loses_weight_from_the_first_day_has_no_growth_curve() =>
        Assert.False(new Fitter().Fit(GrowthModel.Logistic, Days.AsSpan(0, 10), [.. Days.Take(10).Select(day => 30 - day)])!.IsIdentifiable);

    [Fact]
    public void Three_weights_are_too_few() => Assert.Null(new Fitter().Fit(GrowthModel.Logistic, [1, 2, 3], [10, 11, 12]));

    // The standard error says how far fits of other chicks of the same kind would lie: about two thirds within one.
    [Fact]
    public void Two_thirds_of_many_fits_lie_within_their_standard_error_of_the_truth()
    {
        var within = Enumerable.Range(0, 400).Count(seed =>
            new Fitter().Fit(GrowthModel.Logistic, Days, Noisy(seed, relative: false))! is var fit && Math.Abs(fit.Asymptote - 412) < fit.StandardError(0));

        Assert.InRange(within / 400.0, 0.68 - 0.07, 0.68 + 0.07);
    }

    private static double[] Noisy(int seed, bool relative = true)
    {
        var random = new Random(seed);
        return [.. Days.Select(day =>
        {
            var grams = GrowthModel.Logistic.Grams(day, [412, 0.13, 21]);
            return grams + (relative ? grams * 0.02 : 4) * random.NextNormal();
        })];
    }

    private static double AgeAt(GrowthModel model, double[] at, double part)
    {
        var (low, high) = (-100.0, 300.0);
        for (var i = 0; i < 80; i++)
        {
            var middle = (low + high) / 2;
            if (model.Grams(middle, at) >= part)
                high = middle;
            else
                low = middle;
        }

        return low;
    }

    private static void AssertDerivatives(GrowthModel model, double day, double[] at)
    {
        var gradient = new double[4];
        model.Value(day, at, gradient);
        for (var i = 0; i < at.Length; i++)
        {
            var step = 1e-5 * Math.Abs(at[i]);
            double[] above = [.. at], below = [.. at];
            above[i] += step;
            below[i] -= step;
            var slope = (model.Grams(day, above) - model.Grams(day, below)) / (2 * step);
            Assert.Equal(slope, gradient[i], 1e-4 * Math.Abs(slope) + 1e-6);
        }
    }
}
