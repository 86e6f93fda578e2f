using CaptureAgent.Agent.Growth.Charts;
using CaptureAgent.Agent.Growth.References;
using Xunit;

namespace CaptureAgent.Agent.Tests.Growth.Charts;

public sealed class ChickWindowTests
{
    [Theory]
    [InlineData(3, 7)]
    [InlineData(4, 7)]
    [InlineData(8, 11)]
    [InlineData(20, 23)]
    [InlineData(60, 63)]
    public void It_goes_from_hatching_to_three_days_past_the_last_age_and_over_a_week_at_least(int age, double lastAge)
    {
        var window = ChickWindow.Of(DrawnChick.Of(0, age));

        Assert.Equal((0, lastAge), (window.FirstAge, window.LastAge));
    }

    [Fact]
    public void A_chick_that_came_late_is_drawn_from_its_first_weight_on()
    {
        var window = ChickWindow.Of(DrawnChick.Of(41, 44));

        Assert.Equal((41, 48), (window.FirstAge, window.LastAge));
    }

    [Fact]
    public void A_chick_without_weights_has_a_week() =>
        Assert.Equal((0, 7), (ChickWindow.Of(DrawnChick.Of(0, -1)).FirstAge, ChickWindow.Of(DrawnChick.Of(0, -1)).LastAge));

    [Theory]
    [InlineData(3)]
    [InlineData(8)]
    [InlineData(20)]
    public void The_97th_centile_of_its_days_is_at_the_top(int age)
    {
        var window = ChickWindow.Of(DrawnChick.Of(0, age));
        var centile = new ReferenceLibrary([]).Of(DrawnChick.Species)!.At(window.LastAge)!.Value.Value(1.880794);

        Assert.InRange(window.Grams, centile, 1.15 * centile);
    }

    [Fact]
    public void What_is_expected_next_lies_in_it_however_heavy_the_chick()
    {
        var view = DrawnChick.Of(0, 8, factor: 4);

        Assert.True(ChickWindow.Of(view).Grams > view.Next!.HighGrams);
    }

    [Fact]
    public void A_weight_that_a_finding_is_about_lies_in_it()
    {
        var view = DrawnChick.Of(0, 8, finding: 400);

        Assert.True(ChickWindow.Of(view).Grams > 400);
    }
}
