using CaptureAgent.Agent.Thriving;
using CaptureAgent.Store;
using Xunit;

namespace CaptureAgent.Agent.Tests.Thriving;

/// <summary>A slip of the pen in the register does not take a chick out of the morning.</summary>
public sealed class RegisterDoubtTests
{
    private static readonly DateOnly Today = new(2026, 3, 20);

    [Theory]
    [InlineData("2027-03-10", "after its first weight")]
    [InlineData("2025-03-10", "Is the year right?")]
    public void A_hatch_date_that_the_weights_contradict_is_asked_about_and_the_chick_stays(string hatched, string words)
    {
        var chick = new Chick("AM-0001", null, DateOnly.Parse(hatched, System.Globalization.CultureInfo.InvariantCulture));
        var weights = Weights(5, 0, 1.12m);
        Assert.Contains(words, RegisterDoubt.Of(chick, weights, Today)!.Value.Text, StringComparison.Ordinal);
        var watched = RoomRecord.Watched(chick, weights, null, null, Today);
        Assert.NotNull(watched);
        Assert.Null(watched.Hatched);
    }

    [Fact]
    public void An_old_bird_that_keeps_its_weight_is_as_old_as_the_register_says()
    {
        var chick = new Chick("AM-0001", null, Today.AddDays(-700));
        Assert.Null(RegisterDoubt.Of(chick, Weights(20, 0, 1.002m), Today));
        Assert.Equal(chick.Hatched, RoomRecord.Watched(chick, Weights(20, 0, 1.002m), null, null, Today)!.Hatched);
    }

    [Theory]
    [InlineData(30, false)]
    [InlineData(31, true)]
    [InlineData(150, true)]
    [InlineData(151, false)]
    public void One_that_nobody_weighs_any_more_is_named_before_it_is_forgotten(int days, bool isNamed)
    {
        var chick = new Chick("AM-0001", null, null);
        Assert.Equal(isNamed, RegisterDoubt.Of(chick, Weights(5, days, 1.01m), Today) is not null);
        Assert.Equal(isNamed, RegisterDoubt.Of(chick with { Hatched = Today.AddDays(-days) }, [], Today) is not null);
        Assert.Null(RegisterDoubt.Of(chick with { Left = Today.AddDays(-1) }, Weights(5, days, 1.01m), Today));
    }

    [Theory]
    [InlineData(30, false)]
    [InlineData(400, true)]
    public void An_egg_may_be_registered_ahead_but_not_a_year(int days, bool isAsked) =>
        Assert.Equal(isAsked, RegisterDoubt.Of(new Chick("AM-0001", null, Today.AddDays(days)), [], Today) is not null);

    // One a day, the last so many days ago.
    private static List<MorningWeight> Weights(int count, int daysAgo, decimal ratio)
    {
        List<MorningWeight> weights = [];
        var grams = 40m;
        for (var day = count - 1; day >= 0; day--, grams *= ratio)
            weights.Add(new MorningWeight(Today.AddDays(-daysAgo - day), decimal.Round(grams, 1), 0.1m, null));
        return weights;
    }
}
