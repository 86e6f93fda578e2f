using CaptureAgent.Agent.Growth.Fitting;
using CaptureAgent.Agent.Growth.Models;
using Xunit;

namespace CaptureAgent.Agent.Tests.Growth.Fitting;

/// <summary>NIST Statistical Reference Datasets, nonlinear regression, Rat42 and Rat43 (Ratkowsky 1983): data, start values and certified results as published by the U.S. National Institute of Standards and Technology.</summary>
public sealed class CertifiedFitTests
{
    private const double SixDigits = 5e-7;

    private static readonly double[] PastureDays = [9, 14, 21, 28, 42, 57, 63, 70, 79];
    private static readonly double[] PastureYield = [8.930, 10.800, 18.590, 22.330, 39.350, 56.110, 61.730, 64.620, 67.080];

    private static readonly double[] OnionTimes = [.. Enumerable.Range(1, 15)];
    private static readonly double[] OnionWeights =
        [16.08, 33.83, 65.80, 97.20, 191.55, 326.20, 386.87, 520.53, 590.03, 651.92, 724.93, 699.56, 689.96, 637.56, 717.41];

    private static readonly double[] Rat42 = [7.2462237576E+01, 2.6180768402E+00, 6.7359200066E-02];
    private static readonly double[] Rat42Errors = [1.7340283401E+00, 8.8295217536E-02, 3.4465663377E-03];
    private const double Rat42ResidualSd = 1.1587725499E+00;

    private static readonly double[] Rat43 = [6.9964151270E+02, 5.2771253025E+00, 7.5962938329E-01, 1.2792483859E+00];
    private static readonly double[] Rat43Errors = [1.6302297817E+01, 2.0828735829E+00, 1.9566123451E-01, 6.8761936385E-01];
    private const double Rat43ResidualSd = 2.8262414662E+01;

    [Theory]
    [InlineData(100, 1, 0.1)]
    [InlineData(75, 2.5, 0.07)]
    public void The_logistic_curve_reaches_the_certified_values_of_Rat42_from_both_starts(double b1, double b2, double b3)
    {
        var fit = From(GrowthModel.Logistic, [b1, b3, b2 / b3], PastureDays, PastureYield);

        AssertIs(Rat42, Rat42Errors, Rat42ResidualSd, ReparameterisedFit.Ratkowsky(fit), fit);
    }

    [Theory]
    [InlineData(100, 10, 1, 1)]
    [InlineData(700, 5, 0.75, 1.3)]
    public void Richards_s_curve_reaches_the_certified_values_of_Rat43_from_both_starts(double b1, double b2, double b3, double b4)
    {
        var fit = From(GrowthModel.Richards, [b1, b3, (b2 - Math.Log(b4)) / b3, b4 + 1], OnionTimes, OnionWeights);

        AssertIs(Rat43, Rat43Errors, Rat43ResidualSd, ReparameterisedFit.RatkowskyRichards(fit), fit);
    }

    [Fact]
    public void Without_any_start_given_the_same_values_are_reached()
    {
        var pasture = new Fitter().Fit(GrowthModel.Logistic, PastureDays, PastureYield)!;
        var onions = new Fitter().Fit(GrowthModel.Richards, OnionTimes, OnionWeights)!;

        AssertIs(Rat42, Rat42Errors, Rat42ResidualSd, ReparameterisedFit.Ratkowsky(pasture), pasture);
        AssertIs(Rat43, Rat43Errors, Rat43ResidualSd, ReparameterisedFit.RatkowskyRichards(onions), onions);
        Assert.True(pasture.IsIdentifiable);
        Assert.True(onions.IsIdentifiable);
    }

    private static void AssertIs(double[] values, double[] errors, double residualSd, ReparameterisedFit found, GrowthFit fit)
    {
        for (var i = 0; i < values.Length; i++)
        {
            Assert.Equal(1, found.Value(i) / values[i], SixDigits);
            Assert.Equal(1, found.StandardError(i) / errors[i], SixDigits);
        }

        Assert.Equal(1, fit.ResidualSd / residualSd, SixDigits);
    }

    private static GrowthFit From(GrowthModel model, double[] start, double[] x, double[] y)
    {
        var squares = new LeastSquares();
        Assert.True(squares.Minimise(model, x, y, start));
        var unscaled = squares.Unscaled(model, x, y, start, new double[x.Length]);
        return new GrowthFit(model, start, unscaled, squares.Rss, Math.Sqrt(squares.Rss / (x.Length - model.Parameters)), x.Length, [], null);
    }
}
