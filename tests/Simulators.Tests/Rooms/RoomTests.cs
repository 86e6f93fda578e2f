using CaptureAgent.Simulators.Rooms;
using Xunit;

namespace CaptureAgent.Simulators.Tests.Rooms;

/// <summary>The simulated room does what its conditions say: detection is measured on it.</summary>
public sealed class RoomTests
{
    private static readonly RoomConditions Plain = new() { Missing = 0, CommonNoise = 0, Division = 0.0001 };

    [Fact]
    public void The_same_seed_gives_the_same_weights_and_another_one_others()
    {
        Assert.Equal(Weights(Weighed(Plain, 3)), Weights(Weighed(Plain, 3)));
        Assert.NotEqual(Weights(Weighed(Plain, 3)), Weights(Weighed(Plain, 4)));
    }

    [Theory]
    [InlineData(0.02, 0)]
    [InlineData(0.02, 0.7)]
    [InlineData(0.01, 0.4)]
    public void Mornings_scatter_and_hang_together_as_the_conditions_say(double noise, double correlation)
    {
        double squares = 0, products = 0;
        var (n, pairs) = (0, 0);
        for (ulong seed = 1; seed <= 4; seed++)
        {
            foreach (var chick in Weighed(Plain with { Noise = noise, Correlation = correlation }, seed).Chicks)
            {
                for (var day = Math.Max(chick.HatchDay, 0); day < chick.Weights.Length; day++)
                {
                    var off = Off(chick, day);
                    (squares, n) = (squares + off * off, n + 1);
                    if (day + 1 < chick.Weights.Length)
                        (products, pairs) = (products + off * Off(chick, day + 1), pairs + 1);
                }
            }
        }

        Assert.Equal(noise, Math.Sqrt(squares / n), 0.03 * noise);
        Assert.Equal(correlation, products / pairs / (squares / n), 0.05);
    }

    [Fact]
    public void What_a_morning_has_in_common_moves_every_chick()
    {
        var room = Weighed(Plain with { Noise = 0, CommonNoise = 0.01 }, 5);
        foreach (var chick in room.Chicks)
            Assert.Equal(room.Common[^1], Off(chick, room.Days - 1), 1e-4);
        Assert.Equal(0.01, Math.Sqrt(room.Common.Average(common => common * common)), 0.003);
    }

    [Fact]
    public void Missing_weighings_are_noughts_and_never_on_the_last_morning()
    {
        var room = Weighed(Plain with { Missing = 0.1, Chicks = 300 }, 6);
        var mornings = room.Chicks.SelectMany(chick => chick.Weights.Take(room.Days - 1).Skip(Math.Max(chick.HatchDay, 0))).ToList();
        Assert.Equal(0.1, mornings.Average(grams => grams == 0 ? 1.0 : 0.0), 0.01);
        Assert.DoesNotContain(room.Chicks, chick => chick.Weights[^1] == 0);
    }

    [Fact]
    public void After_the_peak_no_more_is_lost_than_the_recession()
    {
        var past = Weighed(Plain, 7).Chicks.Where(chick => chick.PeakDay >= 0 && chick.PeakDay < chick.Course.Count - 1).ToList();
        Assert.NotEmpty(past);
        foreach (var chick in past)
        {
            var lost = 1 - Math.Exp(chick.Course[^1] - chick.Course[chick.PeakDay]);
            // It takes 14 days at least, and ends with a whole one.
            Assert.InRange(lost, 0, 1 - Math.Pow(1 - chick.Law.Recession, 15.0 / 14));
            Assert.InRange(chick.Law.Recession, 0.02, 0.25);
        }
    }

    [Fact]
    public void A_change_alters_the_gains_from_its_day_on_and_nothing_before()
    {
        var (changed, twin) = (new Room(Plain, 8).Chicks[0], new Room(Plain, 8).Chicks[0]);
        changed.Change(60, 62, gain => gain / 2);
        Assert.Equal(twin.Course.Take(60), changed.Course.Take(60));
        for (var day = 60; day <= 62; day++)
            Assert.Equal(twin.Gain(day) / 2, changed.Gain(day), 1e-12);
        Assert.Equal(twin.Gain(63), changed.Gain(63), 1e-12);
    }

    [Fact]
    public void Mates_are_of_one_species_and_hatch_within_a_few_days()
    {
        foreach (var clutch in new Room(Plain, 9).Chicks.GroupBy(chick => chick.Clutch))
        {
            Assert.Single(clutch.Select(chick => chick.Species).Distinct());
            Assert.InRange(clutch.Max(chick => chick.HatchDay) - clutch.Min(chick => chick.HatchDay), 0, 6);
        }
    }

    private static Room Weighed(RoomConditions conditions, ulong seed)
    {
        var room = new Room(conditions, seed);
        room.Weigh();
        return room;
    }

    private static double Off(RoomChick chick, int day) => Math.Log(chick.Weights[day]) - chick.Course[day];

    private static double[] Weights(Room room) => [.. room.Chicks.SelectMany(chick => chick.Weights)];
}
