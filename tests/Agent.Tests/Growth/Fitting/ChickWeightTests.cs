using System.Globalization;
using CaptureAgent.Agent.Growth.Fitting;
using CaptureAgent.Agent.Growth.Models;
using CaptureAgent.Agent.Tests.Growth.Data;
using Xunit;

namespace CaptureAgent.Agent.Tests.Growth.Fitting;

/// <summary>Fifty chicks of domestic fowl (Crowder and Hand 1990), fitted one by one, against R 4.2.2's least-squares minima of SSlogis and SSgompertz; both files name their source.</summary>
public sealed class ChickWeightTests
{
    private const double FiveDigits = 5e-6;

    private static readonly ILookup<int, (double Age, double Grams)> Chicks = DataFile.Rows("chick-weight.csv")
        .ToLookup(row => int.Parse(row["Chick"], CultureInfo.InvariantCulture), row => (Number(row["Time"]), Number(row["weight"])));

    public static TheoryData<int, string> Usable => Listed("1");

    public static TheoryData<int, string> NotUsable => Listed("0");

    [Theory]
    [MemberData(nameof(Usable))]
    public void A_fit_that_R_finds_usable_agrees_with_it(int chick, string model)
    {
        var row = Row(chick, model);
        var fit = Fit(chick, model)!;
        var found = model == "SSlogis" ? ReparameterisedFit.SelfStartLogistic(fit) : ReparameterisedFit.SelfStartGompertz(fit);

        Assert.Null(fit.Doubt);
        Assert.Empty(fit.LeftOut);
        for (var i = 0; i < 3; i++)
        {
            Assert.Equal(1, found.Value(i) / Number(row[$"p{i + 1}"]), FiveDigits);
            Assert.Equal(1, found.StandardError(i) / Number(row[$"p{i + 1}_se"]), FiveDigits);
        }

        Assert.Equal(1, fit.ResidualSd / Number(row["sigma"]), FiveDigits);
    }

    [Theory]
    [MemberData(nameof(NotUsable))]
    public void A_fit_that_R_finds_not_usable_is_told_as_not_identifiable(int chick, string model)
    {
        var fit = Fit(chick, model);

        if (Chicks[chick].Count() > 3)
            Assert.NotEmpty(fit!.Doubt!);
        else
            Assert.Null(fit);
    }

    [Fact]
    public void The_table_has_forty_two_usable_logistic_fits_and_twenty_seven_of_Gompertz_s()
    {
        Assert.Equal(42, Usable.Count(row => row.Data.Item2 == "SSlogis"));
        Assert.Equal(27, Usable.Count(row => row.Data.Item2 == "SSgompertz"));
    }

    private static GrowthFit? Fit(int chick, string model) => new Fitter().Fit(
        model == "SSlogis" ? GrowthModel.Logistic : GrowthModel.Gompertz,
        [.. Chicks[chick].Select(weight => weight.Age)], [.. Chicks[chick].Select(weight => weight.Grams)]);

    private static TheoryData<int, string> Listed(string usable) =>
        [.. DataFile.Rows("chick-weight-fits.csv").Where(row => row["usable"] == usable).Select(row => (int.Parse(row["chick"], CultureInfo.InvariantCulture), row["model"]))];

    private static Dictionary<string, string> Row(int chick, string model) =>
        DataFile.Rows("chick-weight-fits.csv").Single(row => row["chick"] == chick.ToString(CultureInfo.InvariantCulture) && row["model"] == model);

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
