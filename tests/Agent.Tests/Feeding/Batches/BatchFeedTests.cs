using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using Xunit;

namespace CaptureAgent.Agent.Tests.Feeding.Batches;

/// <summary>What is said of a feed, by the batch that it is from.</summary>
public sealed class BatchFeedTests
{
    private static Bench Fed(Bench bench) => bench.Scan("!FED").Pass(1).Scan("AM-0147").Pass(1);

    [Fact]
    public void A_feed_in_range_is_written_down_with_its_batch_and_nothing_else_is_said()
    {
        var bench = Fed(new Bench().Pass(10).Dip(39.8).Pass(60));
        var feed = Assert.Single(bench.Events.OfType<FeedEvent>());
        Assert.Equal((1, "in-range"), (feed.Batch, feed.BatchState));
        Assert.Empty(bench.Alerts);
    }

    [Theory]
    [InlineData(45.0, "stop")]
    [InlineData(41.8, "too-hot")]
    [InlineData(36.0, "too-cold")]
    public void A_feed_from_anything_else_is_written_down_and_answered(double celsius, string state)
    {
        var bench = Fed(new Bench().Pass(10).Dip(celsius, coolsBy: 0).Pass(60));
        Assert.Equal(state, Assert.Single(bench.Events.OfType<FeedEvent>()).BatchState);
        var alert = Assert.Single(bench.Events.OfType<AlertEvent>(), told => told.Chick == "AM-0147");
        Assert.Equal($"batch-{state}", alert.Alert);
    }

    [Fact]
    public void A_feed_from_an_old_batch_and_one_from_an_unmeasured_one_are_answered()
    {
        var old = Fed(new Bench().Pass(1).Scan("!BATCH").Wait(60 * 21));
        Assert.Contains("batch-discard", old.Alerts);
        Assert.Equal((1, "discard"), (old.Events.OfType<FeedEvent>().Single().Batch, old.Events.OfType<FeedEvent>().Single().BatchState));
        var unmeasured = Fed(new Bench().Pass(1).Scan("!BATCH").Pass(2));
        Assert.Contains("batch-unmeasured", unmeasured.Alerts);
        Assert.Contains("batch-unmeasured", Fed(new Bench().Pass(1)).Alerts);
    }

    [Fact]
    public void With_a_hot_batch_beside_the_one_in_range_a_feed_is_from_that_one_and_the_other_is_said()
    {
        var bench = new Bench(options => options.Devices.Add(new DeviceOptions { Id = "second", Role = "probe", Dialect = "text" }));
        Fed(bench.Pass(10).Dip(39.6).Pass(20).Dip(47, probe: "second", coolsBy: 0).Pass(50));
        var feed = Assert.Single(bench.Events.OfType<FeedEvent>());
        Assert.Equal((1, "in-range"), (feed.Batch, feed.BatchState));
        Assert.Equal("second", Assert.Single(bench.Events.OfType<AlertEvent>(), told => told is { Alert: "batch-stop", Chick: "AM-0147" }).Device);
    }

    [Fact]
    public void The_batch_says_how_many_chicks_it_will_still_feed_at_this_pace()
    {
        var bench = new Bench().Pass(10).Dip(39.8, coolsBy: 0.002).Pass(60);
        for (var i = 0; i < 6; i++)
            bench.Scan("!FED").Pass(1).Scan($"AM-{i:0000}").Pass(29);
        bench.Out().Pass(20).Dip(39.2, coolsBy: 0.002).Pass(60);
        var told = bench.Batches.Last(one => one.ChicksInTime is not null);
        var left = (Min(told.BelowBandAt ?? told.DiscardAt!.Value, told.DiscardAt!.Value) - told.At).TotalSeconds;
        Assert.Equal((int)(left / 30), told.ChicksInTime);
    }

    private static DateTimeOffset Min(DateTimeOffset one, DateTimeOffset other) => one < other ? one : other;
}
