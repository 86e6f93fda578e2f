using CaptureAgent.Agent.Weighing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Metrology;

/// <summary>The statistics of the weighing against certified values and a general-purpose package.</summary>
public sealed class SeriesTests
{
    public static TheoryData<StatisticalReferenceData> Certified => [.. StatisticalReferenceData.All];

    [Theory]
    [MemberData(nameof(Certified), DisableDiscoveryEnumeration = true)]
    public void Mean_deviation_and_autocorrelation_are_those_that_NIST_certifies(StatisticalReferenceData data)
    {
        ArgumentNullException.ThrowIfNull(data);
        var mean = Series.Mean(data.Values);
        Assert.InRange(Digits(mean, data.Mean), 14.5, 17);
        Assert.InRange(Digits(Series.Deviation(data.Values, mean), data.Deviation), DeviationDigits(data.Name), 17);
        Assert.InRange(Digits(Series.Lag1(data.Values, mean), data.Lag1), LagDigits(data.Name), 17);
    }

    // The values of the last two cannot be held in a double beyond these digits, whatever the method: 10000000.2 is off by 2e-9 of the 0.1 that is asked for.
    private static double DeviationDigits(string name) => name switch { "NumAcc4" => 8, "NumAcc3" => 9, "Mavro" or "Michelso" => 13, _ => 14 };

    private static double LagDigits(string name) => name switch { "NumAcc4" => 8, "NumAcc3" => 9, "Mavro" or "Michelso" => 12, "PiDigits" => 12, _ => 13 };

    /// <summary>Correct significant digits: the negative decimal logarithm of the relative error, as NIST counts them.</summary>
    private static double Digits(double found, double certified) =>
        found == certified ? 17 : -Math.Log10(Math.Abs(found - certified) / Math.Abs(certified));

    // R 4.2.2: median(x).
    [Theory]
    [InlineData("Lew", -162)]
    [InlineData("Lottery", 522.5)]
    [InlineData("Mavro", 2.0018)]
    [InlineData("Michelso", 299.85)]
    public void The_median_is_that_of_R(string name, double median) => Assert.Equal(median, Series.Median([.. Of(name).Order()]), 12);

    // R 4.2.2: r <- acf(x, lag.max = 1, plot = FALSE)$acf[2]; var(x) / n * (1 + rr) / (1 - rr) with rr <- min(max(r + 1/n, 0), 0.8);
    // groups: m <- tapply(tail(x, g * k), rep(1:g, each = k), mean); sum((m - mean(x))^2) / (g - 1) / g with g <- n %/% k.
    [Theory]
    [InlineData("Lew", 384.565657160804, 278.150891666667, 71.5184596938776)]
    [InlineData("Lottery", 390.315279846962, 362.715644259275, 303.930822120638)]
    [InlineData("Mavro", 3.31464489795969e-08, 7.33599999999983e-09, 1.62939924242462e-08)]
    [InlineData("Michelso", 0.00021209673342593, 9.38416326530721e-05, 0.000146260000000009)]
    public void The_variance_of_a_mean_is_the_largest_of_three_estimates_as_R_computes_them(string name, double first, double pairs, double fours)
    {
        var values = Of(name);
        var mean = Series.Mean(values);
        Near(pairs, Series.GroupedVariance(values, mean, 2));
        Near(fours, Series.GroupedVariance(values, mean, 4));
        Near(Math.Max(first, Math.Max(pairs, fours)), Series.VarianceOfMean(values, mean));
    }

    // R 4.2.2: a <- arima(x, order = c(1, 0, 0), method = "ML"); sqrt(a$var.coef["intercept", "intercept"]): another method, exact maximum likelihood, for the same thing.
    [Theory]
    [InlineData("Michelso", 0.0139794012972759, 0.95, 1.1)]
    [InlineData("Lottery", 17.4360013076126, 1, 1.15)]
    [InlineData("Lew", 14.2521766069442, 1, 1.4)]
    [InlineData("Mavro", 0.000313614283032751, 0.5, 1)]
    public void The_standard_error_is_near_that_of_an_autoregression_by_maximum_likelihood(string name, double error, double least, double most)
    {
        // Lottery and Lew alternate (r below 0), which is not credited; Mavro is hardly other than a trend, and its correlation is capped.
        var values = Of(name);
        Assert.InRange(Math.Sqrt(Series.VarianceOfMean(values, Series.Mean(values))) / error, least, most);
    }

    [Fact]
    public void Correlated_readings_are_worth_as_few_as_they_are()
    {
        // For r = 0.8 nine readings are worth one: n (1 - r) / (1 + r).
        Assert.Equal(9, Series.Inflation(0.8), 12);
        Assert.Equal(1, Series.Inflation(0), 12);
    }

    [Fact]
    public void Too_few_values_have_no_figure()
    {
        Assert.True(double.IsNaN(Series.Mean([])));
        Assert.True(double.IsNaN(Series.Deviation([1], 1)));
        Assert.True(double.IsNaN(Series.Median([])));
        Assert.True(double.IsNaN(Series.VarianceOfMean([1], 1)));
        Assert.Equal(0, Series.GroupedVariance([1, 2, 3, 4, 5], 3, 2));
        Assert.Equal(0, Series.Lag1([5, 5, 5], 5));
    }

    private static double[] Of(string name) => StatisticalReferenceData.All.Single(data => data.Name == name).Values;

    private static void Near(double expected, double found) => Assert.InRange(found, expected * (1 - 1e-9), expected * (1 + 1e-9));
}
