using CaptureAgent.Agent.Growth.References;
using Xunit;

namespace CaptureAgent.Agent.Tests.Growth.References;

/// <summary>Shipped parameters against weights by age that were read off the same papers' figures (1-2 % each, whole grams).</summary>
public sealed class PublishedSeriesTests
{
    // At days 14, 21, 28, 35 and 42; only series of single chicks or of means, with the residual standard deviation of the fit (R 4.2.2, nls).
    [Theory]
    [InlineData("Cacatua moluccensis", "tW", new[] { 121.0, 269, 490, 701, 842 }, 5.0)] // Sweeney 2000, Int. Zoo Yb. 37: 130
    [InlineData("Cyanopsitta spixii", "tW1", new[] { 101.0, 192, 295, 384, 445 }, 14.0)] // Tschudin et al. 2010, Int. Zoo Yb. 44: 201, group 1
    [InlineData("Cyanopsitta spixii", "tW4", new[] { 102.0, 177, 249, 317, 342 }, 15.0)] // the same, group 4
    [InlineData("Myiopsitta monachus", "tW", new[] { 40.0, 67, 95, 108, 107 }, 4.5)] // Petzinger, Heatley and Bauer 2015, Vet. Med. Res. Rep. 6: 321
    [InlineData("Ara glaucogularis", "tW", new[] { 128.0, 265, 432, 599, 730 }, 10.0)] // Switzer 2008
    [InlineData("Trichoglossus euteles", "tW", new[] { 18.0, 28, 45, 59, 68 }, 2.5)] // Stanley 2020
    public void Weights_by_age_come_out_within_two_residual_deviations(string species, string name, double[] grams, double deviation)
    {
        var series = PublishedSeries.Of(species).Single(each => each.Series == name);
        for (var i = 0; i < grams.Length; i++)
            Assert.Equal(grams[i], series.Grams(14 + 7 * i)!.Value, 2 * deviation);
    }

    [Fact]
    public void Every_series_has_a_source_and_all_but_one_a_curve()
    {
        Assert.Equal(50, PublishedSeries.All.Count);
        Assert.All(PublishedSeries.All, series => Assert.NotEmpty(series.Citation));
        Assert.Equal("Nestor notabilis", Assert.Single(PublishedSeries.All, series => series.Curve is null).Species);
    }

    [Fact]
    public void Names_in_citations_have_their_accents_and_no_marks_of_a_typesetter()
    {
        Assert.StartsWith("Gláucia Helena Fernandes Seixas and Guilherme Mourão (2003)", Assert.Single(PublishedSeries.Of("Amazona aestiva")).Citation, StringComparison.Ordinal);
        Assert.Contains("Loro Parque Fundación, Puerto de la Cruz", Assert.Single(PublishedSeries.Of("Cacatua moluccensis")).Citation, StringComparison.Ordinal);
        // An apostrophe within a word belongs there before an s alone.
        Assert.All(PublishedSeries.All, series => Assert.DoesNotMatch(@"\w'(?!s\b)\w|[~`^{}\\]|--", series.Citation));
    }

    [Fact]
    public void The_rate_constants_have_the_median_and_the_range_that_were_reported()
    {
        // 48 series: median 0.136 a day, 0.057 to 0.255.
        var rates = PublishedSeries.All.Where(series => series.Logistic is not null).Select(series => series.Logistic!.Parameters[1]).Order().ToList();

        Assert.Equal(0.136, rates[rates.Count / 2], 0.005);
        Assert.Equal(0.255, rates[^1], 0.0005);
        Assert.Equal(0.057, rates[0], 0.0005);
    }
}
