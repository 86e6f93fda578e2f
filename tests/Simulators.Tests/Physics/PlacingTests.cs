using CaptureAgent.Simulators.Physics.Pan;
using CaptureAgent.Simulators.Physics.Placings;
using CaptureAgent.Simulators.Physics.Scales;
using Xunit;

namespace CaptureAgent.Simulators.Tests.Physics;

public sealed class PlacingTests
{
    public static TheoryData<string> Families => new(PlacingFamilies.All.Select(family => family.Name));

    [Theory]
    [MemberData(nameof(Families))]
    public void Same_seed_same_readings(string family)
    {
        var kind = Find(family);
        Assert.Equal(kind.Draw(11).Readings(), kind.Draw(11).Readings());
        Assert.NotEqual(kind.Draw(11).Readings(), kind.Draw(12).Readings());
    }

    [Theory]
    [MemberData(nameof(Families))]
    public void Where_a_record_is_due_the_mean_force_without_hands_is_the_truth(string family)
    {
        if (!Find(family).MustRecord)
            return;
        for (ulong seed = 1; seed <= 6; seed++)
        {
            var placing = Find(family).Draw(seed);
            var truth = placing.Truth;
            Assert.True(truth.HandsBackAt > truth.HandsOffAt + 5);
            var liner = placing.Loads.Single(load => load.Id == PlacingDraft.Liner).Grams;
            Assert.Equal(truth.NetGrams, MeanForce(placing, truth.HandsOffAt + 0.7, truth.HandsBackAt) - liner, 0.02 * truth.NetGrams);
        }
    }

    [Fact]
    public void Hand_that_never_leaves_shows_a_wrong_weight()
    {
        for (ulong seed = 1; seed <= 6; seed++)
        {
            var placing = Find("never let go").Draw(seed);
            Assert.True(double.IsNaN(placing.Truth.HandsOffAt));
            Assert.False(placing.Truth.MayRecord);
            var liner = placing.Loads.Single(load => load.Id == PlacingDraft.Liner).Grams;
            var shown = MeanForce(placing, placing.Truth.HandsBackAt - 1.5, placing.Truth.HandsBackAt) - liner;
            Assert.True(Math.Abs(shown - placing.Truth.NetGrams) > 0.02 * placing.Truth.NetGrams);
        }
    }

    [Fact]
    public void Arrivals_are_in_order_and_never_before_the_reading()
    {
        foreach (var placing in PlacingFamilies.Draw(5, 25))
        {
            var last = 0.0;
            foreach (var (arrivesAt, sample) in placing.Readings())
            {
                Assert.True(arrivesAt >= sample.Seconds && arrivesAt >= last);
                last = arrivesAt;
            }
        }
    }

    [Fact]
    public void Lumpy_link_delivers_several_readings_at_once_and_loses_none()
    {
        var placing = Find("lumpy link").Draw(4);
        var lumpy = placing.Readings().ToList();
        var plain = (placing with { Delivery = Delivery.AtOnce }).Readings().ToList();

        Assert.Equal(plain.Select(reading => reading.Sample), lumpy.Select(reading => reading.Sample));
        Assert.True(lumpy.Select(reading => reading.ArrivesAt).Distinct().Count() < lumpy.Count);
    }

    [Fact]
    public void Shown_values_are_whole_divisions()
    {
        foreach (var placing in PlacingFamilies.Draw(6, 25))
        {
            foreach (var (_, sample) in placing.Readings())
            {
                if (sample is { Range: ShownRange.Within, Unit: DisplayUnit.Gram })
                    Assert.Equal(0, sample.Value % placing.Scale.DivisionGrams);
            }
        }
    }

    [Fact]
    public void Draw_gives_the_same_mix_for_a_seed_and_reaches_every_family()
    {
        var drawn = PlacingFamilies.Draw(1, 1500).Select(placing => placing.Family).ToList();
        Assert.Equal(drawn, PlacingFamilies.Draw(1, 1500).Select(placing => placing.Family));
        Assert.Equal(PlacingFamilies.All.Count, drawn.Distinct().Count());
    }

    private static PlacingFamily Find(string name) => PlacingFamilies.All.Single(family => family.Name == name);

    private static double MeanForce(Placing placing, double from, double to)
    {
        var pan = new PanForces(placing.Seed);
        foreach (var load in placing.Loads)
            pan.Add(load);
        foreach (var action in placing.Actions)
            pan.Schedule(action);
        var (sum, count) = (0.0, 0);
        while (pan.Seconds < to)
        {
            var now = pan.Seconds;
            var force = pan.Step();
            if (now < from)
                continue;
            sum += force;
            count++;
        }

        return sum / count;
    }
}
