using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Hosting;
using CaptureAgent.Agent.Recording;
using CaptureAgent.Store;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Feeding.Batches;

/// <summary>The agent ends in the middle of a batch and is started again on the same store.</summary>
public sealed class RestartTests : IDisposable
{
    private readonly CaptureStore store = CaptureStore.Open(":memory:", new FakeTimeProvider());

    public void Dispose() => store.Dispose();

    [Fact]
    public void The_clock_goes_on_and_nobody_has_measured_it()
    {
        var before = InRange();
        var after = Again(before, minutes: 3).Wait(1);
        var said = Assert.Single(after.Batches);
        Assert.Equal((1, "unmeasured", before.Batches[0].MixedAt, before.Batches[0].DiscardAt), (said.Batch, said.State, said.MixedAt, said.DiscardAt));
        Assert.Null(said.Celsius);
        Assert.True(said.At >= before.Now.AddMinutes(3));
        Assert.Contains("batch-unmeasured", after.Scan("!FED").Pass(1).Scan("AM-0147").Pass(1).Alerts);
    }

    [Fact]
    public void It_is_in_range_again_only_after_two_readings_and_is_the_same_batch()
    {
        var before = InRange();
        var after = Again(before, minutes: 3).Dip(39.0).Pass(60);
        Assert.Equal(["unmeasured", "warming", "one-reading", "in-range"], after.States);
        Assert.All(after.Batches, told => Assert.Equal((1, before.Batches[0].DiscardAt), (told.Batch, told.DiscardAt)));
    }

    [Fact]
    public void Another_batch_gets_its_own_clock()
    {
        var before = InRange();
        var warmer = Again(before, minutes: 3).Pass(5).Dip(40.8).Pass(60);
        Assert.Equal((2, "in-range"), (warmer.Batches[^1].Batch, warmer.State));
        Assert.True(warmer.Batches[^1].MixedAt > before.Now);
    }

    [Fact]
    public void A_batch_of_hours_ago_is_not_taken_for_the_one_that_is_measured_now()
    {
        var before = InRange();
        var after = Again(before, minutes: 240).Pass(5).Dip(39.6).Pass(60);
        Assert.Equal(["warming", "one-reading", "in-range"], after.States);
        Assert.Equal(2, after.Batches[^1].Batch);
    }

    [Fact]
    public void What_became_too_old_while_nobody_watched_is_said_at_the_start_and_not_with_an_earlier_moment()
    {
        var before = InRange();
        var after = Again(before, minutes: 25).Wait(1);
        Assert.Equal("discard", Assert.Single(after.Batches).State);
        Assert.True(after.Batches[0].At >= before.Now.AddMinutes(25));
        Assert.DoesNotContain("batch-discard-soon", after.Alerts);
    }

    [Fact]
    public void What_was_said_is_not_said_again()
    {
        var before = InRange().Out().Pass(20).Wait(60 * 16);
        Assert.Contains("batch-discard-soon", before.Alerts);
        var after = Again(before, minutes: 0.1).Wait(1);
        Assert.Empty(after.Events);
        Assert.Equal("discard", after.Wait(60 * 6).State);
        Assert.DoesNotContain("batch-discard-soon", after.Alerts);
    }

    [Fact]
    public void A_batch_that_a_card_began_still_waits_for_one_of_two_probes()
    {
        static void TwoProbes(StationOptions options) => options.Devices.Add(new DeviceOptions { Id = "second", Role = "probe", Dialect = "text" });
        var before = new Bench(TwoProbes).Pass(5).Scan("!BATCH").Pass(2);
        var after = Again(before, minutes: 1, TwoProbes).Pass(5).Dip(39.6, probe: "second").Pass(60);
        Assert.All(after.Batches, told => Assert.Equal(1, told.Batch));
        Assert.Equal(("second", "in-range"), (after.Batches[^1].Device, after.State));
        Assert.Equal(before.Batches[0].MixedAt, after.Batches[^1].MixedAt);
    }

    [Theory]
    [InlineData(3.0)]
    [InlineData(9.0)]
    public void What_the_dips_have_taught_of_the_probe_is_known_at_the_next_start(double lag)
    {
        var taught = new Bench().Pass(10);
        for (var i = 0; i < 3; i++)
            taught.Dip(39.8, lag).Pass(10 * lag).Out().Pass(60);
        Store(taught);
        var shown = store.ProbeLags(6);
        Assert.Equal(3, shown.Count);
        Assert.All(shown, row => Assert.InRange(row.ConstantMilliseconds / 1000.0, 0.85 * lag, 1.15 * lag));

        // As well as if the agent had gone on, and better than a probe that was never dipped before.
        var known = Forecast(Again(taught, minutes: 30), lag);
        var wentOn = Forecast(taught.Wait(30 * 60), lag);
        var unknown = Forecast(new Bench(), lag);
        Assert.Equal((double)wentOn.Celsius, (double)known.Celsius, 0.1);
        Assert.Equal((double)wentOn.UncertaintyCelsius, (double)known.UncertaintyCelsius, 0.03);
        Assert.True(known.UncertaintyCelsius < unknown.UncertaintyCelsius);
    }

    [Fact]
    public void The_mistaken_batch_card_can_still_be_taken_back()
    {
        var before = InRange().Scan("!BATCH").Pass(5);
        Assert.Equal(2, before.Batches[^1].Batch);
        var after = Again(before, minutes: 1).Pass(1).Scan("!UNDO").Dip(39.2).Pass(60);
        Assert.Equal("batch", Assert.Single(after.Events.OfType<UndoEvent>()).Undone);
        Assert.Equal((1, before.Batches[0].DiscardAt), (after.Batches[^1].Batch, after.Batches[^1].DiscardAt));
    }

    // One time constant after the dip.
    private static ProbeEvent Forecast(Bench bench, double lag) => bench.Pass(10).Dip(40.4, lag).Pass(lag).Events.OfType<ProbeEvent>().Last();

    private static Bench InRange() => new Bench().Pass(10).Dip(39.8).Pass(60);

    private Bench Again(Bench before, double minutes, Action<StationOptions>? configure = null)
    {
        Store(before);
        var now = before.Now.AddMinutes(minutes);
        return new Bench(configure, Ledgers.Read(store, now), now);
    }

    private void Store(Bench bench)
    {
        var rows = new DecisionRows("s", "Etc/UTC");
        foreach (var decision in bench.Events.OfType<DecisionEvent>().Where(decision => decision.IsKept))
            rows.Store(decision, new DecisionStore(store));
    }
}
