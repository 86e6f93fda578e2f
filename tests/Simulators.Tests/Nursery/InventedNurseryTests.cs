using CaptureAgent.Simulators.Nursery;
using CaptureAgent.Simulators.Nursery.Flock;
using Xunit;

namespace CaptureAgent.Simulators.Tests.Nursery;

public sealed class InventedNurseryTests
{
    private static readonly DateOnly Today = new(2026, 3, 2);

    [Fact]
    public void A_dozen_chicks_have_a_register_and_up_to_two_weeks_of_weights()
    {
        var nursery = new InventedNursery(7, Today);
        var register = Lines(nursery.RegisterCsv());
        var history = Lines(nursery.HistoryCsv());

        Assert.Equal("code,species,hatched,clutch", register[0]);
        Assert.Equal(13, register.Count);
        Assert.Contains("AM-0147,orange-winged amazon,2026-02-06,amazons A", register);
        Assert.Equal("chick,date,grams", history[0]);
        Assert.Equal(1 + nursery.Chicks.Sum(chick => Math.Min(14, chick.AgeDays)), history.Count);
        Assert.All(nursery.Chicks, chick => Assert.Equal(Today.AddDays(-1), chick.History[^1].Day));
    }

    [Fact]
    public void Every_seed_makes_chicks_that_grow_except_the_one_that_fails()
    {
        for (ulong seed = 1; seed <= 30; seed++)
        {
            foreach (var chick in new InventedNursery(seed, Today).Chicks)
            {
                Assert.All(chick.History, weight => Assert.InRange(weight.Grams, 2m, 1200m));
                Assert.InRange(chick.GainPercent(chick.TrueGrams), chick.Code == "CN-0322" ? -5 : -3, chick.Code == "CN-0322" ? -4 : 25);
            }
        }
    }

    [Fact]
    public void Same_seed_same_nursery_and_another_seed_another()
    {
        Assert.Equal(new InventedNursery(3, Today).HistoryCsv(), new InventedNursery(3, Today).HistoryCsv());
        Assert.NotEqual(new InventedNursery(3, Today).HistoryCsv(), new InventedNursery(4, Today).HistoryCsv());
    }

    [Fact]
    public void Ten_minutes_from_any_moment_are_one_nursery_day()
    {
        var start = new DateTimeOffset(2026, 3, 2, 0, 0, 0, TimeSpan.Zero);
        for (var minute = 0; minute < 24 * 60; minute++)
        {
            var now = start.AddMinutes(minute);
            var (today, startsAt) = Demo.NurseryDay(now);
            var begins = new DateTimeOffset(today, startsAt, TimeSpan.Zero);
            Assert.True(begins <= now && now.AddMinutes(10) < begins.AddDays(1), $"{now:HH:mm}");
        }
    }

    private static List<string> Lines(string csv) => [.. csv.Split("\r\n", StringSplitOptions.RemoveEmptyEntries)];
}
