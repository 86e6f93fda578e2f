using CaptureAgent.Agent.Feeding;
using Xunit;

namespace CaptureAgent.Agent.Tests.Feeding;

public sealed class RecipeTests
{
    /// <summary>By definition of solids: 30 g of formula and 70 g of water are 30 %, 100 g and 300 g are 25 %.</summary>
    [Theory]
    [InlineData(100, 30, 70, 30)]
    [InlineData(400, 25, 300, 100)]
    public void Solids_are_dry_formula_in_the_whole_by_weight(double needed, double solids, int water, int formula)
    {
        var mix = Recipe.For(needed, solids, 0, 1);
        Assert.Equal((water, formula, 0m), (mix.WaterGrams, mix.FormulaGrams, mix.FatGrams));
        Assert.Equal((decimal)solids, mix.SolidsPercent);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(0.1)]
    [InlineData(5)]
    public void Whatever_is_asked_for_it_is_enough_in_whole_steps_of_the_scale_and_near_the_solids(double scale)
    {
        var step = (decimal)scale;
        foreach (var solids in (double[])[7, 25, 30])
        {
            for (var needed = 0.5; needed < 900; needed *= 1.31)
            {
                var mix = Recipe.For(needed, solids, 0, step);
                Assert.True((double)mix.TotalGrams >= needed);
                Assert.Equal(0, mix.WaterGrams % step);
                Assert.Equal(0, mix.FormulaGrams % step);
                Assert.InRange((double)(mix.FormulaGrams / mix.TotalGrams), 0.95 * solids / 100 - 1e-9, 1.06 * solids / 100);
            }
        }
    }

    [Fact]
    public void Fat_is_a_share_of_the_whole_mix()
    {
        var mix = Recipe.For(200, 25, 2, 1);
        Assert.Equal(4, mix.FatGrams);
        Assert.Equal(2, mix.FatPercent, 1);
        Assert.False(mix.FatLeftOut);
    }

    [Fact]
    public void Fat_that_the_scale_cannot_weigh_is_left_out_and_said_so()
    {
        var mix = Recipe.For(10, 25, 2, 1);
        Assert.Equal(0, mix.FatGrams);
        Assert.True(mix.FatLeftOut);
    }
}
