using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Feeding;
using CaptureAgent.Store;
using Xunit;

namespace CaptureAgent.Agent.Tests.Feeding;

/// <summary>How often a chick is fed, when the next feed is due, and what the sources say of it.</summary>
public sealed class FeedPlanTests
{
    private static readonly Chick Chick = new("AM-0147", "Ara macao", new DateOnly(2026, 2, 6));

    private static readonly TimeZoneInfo Utc = TimeZoneInfo.Utc;

    /// <summary>
    /// Every two hours, 8 to 10 feeds and more, in days 1 to 5: Stanley, "Lorikeets", in Duerr and Gage (eds), Hand-Rearing Birds, 2nd ed. 2020, p. 616.
    /// Then 5 to 7 (every 3 to 4 h), 4 to 5 (every 4 to 6 h) and 2 to 3 feeds a day: common practice, no source.
    /// </summary>
    [Theory]
    [InlineData(1, 2, 10, 12)]
    [InlineData(5, 2, 10, 12)]
    [InlineData(10, 3, 5, 7)]
    [InlineData(25, 5, 4, 5)]
    [InlineData(40, 8, 2, 3)]
    public void Feeds_a_day_follow_the_published_schedule_for_the_age(int age, double hours, int fewest, int most)
    {
        var plan = Plan();
        Assert.Equal(TimeSpan.FromHours(hours), plan.EveryOf(Chick, age));
        Assert.InRange(plan.FeedsADay(Chick, age), fewest, most);
    }

    /// <summary>"Nearly empty in 4-6 h in all chicks": Doneley, WSAVA 2018, p. 592. A feed earlier would meet a full crop.</summary>
    [Fact]
    public void Once_a_crop_takes_four_to_six_hours_a_feed_does_not_come_before_it_is_nearly_empty()
    {
        for (var age = 21; age < 100; age++)
            Assert.True(Plan().EveryOf(Chick, age) >= new EmptyingGap([]).For(age));
    }

    /// <summary>
    /// Feeds of at most a tenth of body weight (Harris, Primary avian pediatrics, VIN PR00290), as often as the plan says, carry what Spix's macaws took in a day:
    /// 83.1 ± 12.3, 30.1 ± 2.3 and 19.6 ± 1.1 % of their weight (Groffen and others, J. Avian Med. Surg. 2008, abstract).
    /// </summary>
    [Theory]
    [InlineData(3, 83.1, 12.3)]
    [InlineData(45, 30.1, 2.3)]
    [InlineData(92, 19.6, 1.1)]
    public void So_many_feeds_of_a_tenth_carry_the_published_intake_of_a_day(int age, double percent, double deviation)
    {
        var plan = Plan();
        Assert.True(plan.FeedsADay(Chick, age) * plan.StepOf(null, age).MostPercent >= percent - deviation);
    }

    /// <summary>7 % solids on days 0 to 4, then up to 30 %: Roudybush and Grau 1986, J. Nutr. 116:552. 100 g of formula and 300 g of water are 25 %.</summary>
    [Theory]
    [InlineData(0, 7)]
    [InlineData(4, 7)]
    [InlineData(5, 25)]
    [InlineData(28, 30)]
    public void Solids_follow_the_age(int age, double percent) => Assert.Equal(percent, Plan().StepOf(null, age).SolidsPercent);

    [Fact]
    public void No_step_gives_more_than_a_tenth_of_body_weight() =>
        Assert.All(PlanDefaults.Steps, step => Assert.True(step.MostPercent <= 10));

    [Theory]
    [InlineData("2026-03-02T12:00", 24, "2026-03-02T17:00")]
    [InlineData("2026-03-02T18:30", 24, "2026-03-02T23:00")]
    [InlineData("2026-03-02T22:00", 24, "2026-03-03T06:00")]
    [InlineData("2026-03-02T23:30", 3, "2026-03-03T01:30")]
    [InlineData("2026-03-03T01:00", 24, "2026-03-03T06:00")]
    public void What_would_fall_into_the_night_is_a_late_feed_or_waits_for_the_morning(string fed, int age, string due) =>
        Assert.Equal(Moment(due), Plan().DueAfter(Moment(fed), Chick, age));

    [Fact]
    public void The_night_is_the_station_s_local_one()
    {
        var lisbon = TimeZoneInfo.FindSystemTimeZoneById("Europe/Lisbon");
        var plan = new FeedPlan(new FeedingOptions(), lisbon);
        Assert.Equal(Moment("2026-07-02T05:00"), plan.DueAfter(Moment("2026-07-01T21:30"), Chick, 24));
    }

    [Fact]
    public void The_longest_fast_that_the_plan_allows_is_the_night_and_half_an_interval()
    {
        var plan = Plan();
        for (var minutes = 0; minutes < 24 * 60; minutes += 5)
        {
            var fed = Moment("2026-03-02T00:00").AddMinutes(minutes);
            var fast = plan.DueAfter(fed, Chick, 24) - fed;
            Assert.InRange(fast, TimeSpan.FromHours(2.5), TimeSpan.FromHours(7 + 2.5));
        }
    }

    [Fact]
    public void A_chick_may_have_an_interval_of_its_own_and_a_species_steps_of_its_own()
    {
        var options = new FeedingOptions();
        options.Chicks.Add(new ChickPlanOptions { Chick = "AM-0147", EveryHours = 3 });
        options.Plan.Add(new PlanOptions { EveryHours = 6 });
        options.Plan.Add(new PlanOptions { Species = "Eos bornea", EveryHours = 2.5 });
        var plan = new FeedPlan(options, Utc);
        Assert.Equal(TimeSpan.FromHours(3), plan.EveryOf(Chick, 24));
        Assert.Equal(TimeSpan.FromHours(6), plan.EveryOf(Chick with { Code = "AM-0148" }, 24));
        Assert.Equal(TimeSpan.FromHours(2.5), plan.EveryOf(Chick with { Code = "AM-0148", Species = "eos Bornea" }, 24));
    }

    private static FeedPlan Plan() => new(new FeedingOptions(), Utc);

    private static DateTimeOffset Moment(string text) => DateTimeOffset.Parse(text + "Z", System.Globalization.CultureInfo.InvariantCulture);
}
