using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Trace;
using Xunit;

namespace CaptureAgent.Agent.Tests.Feeding.Batches;

/// <summary>What a batch is, from the dip to the bin.</summary>
public sealed class BatchStateTests
{
    private static Bench InRange() => new Bench().Pass(10).Dip(39.8).Pass(60);

    [Fact]
    public void A_batch_begins_by_itself_when_the_probe_goes_into_something_warm()
    {
        var bench = InRange();
        Assert.Equal(["warming", "one-reading", "in-range"], bench.States);
        Assert.All(bench.Batches, told => Assert.Equal(1, told.Batch));
        var begun = bench.Batches[0];
        Assert.InRange((begun.MixedAt - new DateTimeOffset(2026, 3, 2, 6, 0, 10, TimeSpan.Zero)).TotalSeconds, -1, 1);
        Assert.Equal(begun.MixedAt.AddMinutes(20), begun.DiscardAt);
        Assert.InRange(bench.Batches[^1].Celsius!.Value, 39.3m, 39.9m);
        Assert.NotNull(bench.Batches[^1].InRangeSince);
    }

    [Fact]
    public void The_card_begins_a_batch_and_the_dip_does_not_begin_another()
    {
        var bench = new Bench().Pass(5).Scan("!BATCH").Pass(5).Dip(39.8).Pass(60);
        Assert.Equal(["unmeasured", "warming", "one-reading", "in-range"], bench.States);
        Assert.Equal(1, bench.Batches[^1].Batch);
        Assert.Equal(new DateTimeOffset(2026, 3, 2, 6, 20, 5, TimeSpan.Zero), bench.Batches[^1].DiscardAt);
    }

    [Fact]
    public void From_rinse_water_too_it_begins_when_the_probe_comes_into_something_warm_and_thick()
    {
        // Thin water shows within two seconds, formula takes a sheathed probe eight.
        var bench = new Bench().Pass(10).Dip(28, 2, coolsBy: 0).Pass(20);
        Assert.Empty(bench.Batches);
        var dipped = bench.Now;
        bench.Dip(40.2, 8).Pass(90);
        Assert.Equal(["warming", "one-reading", "in-range"], bench.States);
        Assert.InRange((bench.Batches[0].MixedAt - dipped).TotalSeconds, -1, 1);
    }

    [Theory]
    [InlineData(36.0, "too-cold")]
    [InlineData(39.5, "in-range")]
    [InlineData(41.8, "too-hot")]
    [InlineData(44.0, "stop")]
    public void Four_answers_are_told_apart(double celsius, string state) =>
        Assert.Equal(state, new Bench().Pass(10).Dip(celsius, coolsBy: 0).Pass(80).State);

    [Theory]
    [InlineData(2)]
    [InlineData(5)]
    [InlineData(12)]
    public void It_is_never_in_range_while_the_probe_rises(double lag)
    {
        var bench = new Bench().Pass(10).Dip(40.5, lag, coolsBy: 0).Pass(120);
        foreach (var told in bench.Batches.Where(told => told.State is "one-reading" or "in-range"))
            Assert.True(17.5 * Math.Exp(-(bench.SecondsOf(told) - 10) / lag) < 0.35, $"{told.State} after {bench.SecondsOf(told) - 10} s");
        Assert.Equal("in-range", bench.State);
    }

    [Fact]
    public void A_dangerous_batch_is_said_while_the_probe_still_reads_less_than_the_stop_line()
    {
        var bench = new Bench().Pass(10).Dip(47, 8).Pass(20);
        var stop = bench.Batches.First(told => told.State == "stop");
        Assert.True(47 - (24 * Math.Exp(-(bench.SecondsOf(stop) - 10) / 8)) < 42.5);
        var alert = bench.Events.OfType<AlertEvent>().First(told => told.Alert == "batch-stop");
        Assert.Contains("avian veterinarian", alert.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(2, 2, 6)]
    [InlineData(4, 2, 15)]
    [InlineData(10, 2, 15)]
    [InlineData(10, 8, 15)]
    [InlineData(30, 8, 2)]
    public void A_probe_that_is_put_back_tells_no_temperature_that_the_batch_never_had(double seconds, double inside, double outside)
    {
        var bench = new Bench().Pass(10).Dip(39.8, inside).Pass(60);
        var before = bench.Batches.Count;
        for (var times = 0; times < 3; times++)
            bench.Out(lag: outside).Pass(seconds).Dip(39.6, inside).Pass(30);
        Assert.All(bench.Batches.Skip(before).Where(told => told.Celsius is not null), told => Assert.InRange(told.Celsius!.Value, 38.5m, 40.7m));
    }

    [Fact]
    public void A_second_reading_comes_by_lifting_the_probe_for_a_moment_or_by_waiting_in_one_place()
    {
        var waited = InRange();
        var (one, two) = (waited.Batches.First(told => told.State == "one-reading"), waited.Batches.First(told => told.State == "in-range"));
        Assert.InRange((two.At - one.At).TotalSeconds, 25, 26);

        var lifted = new Bench().Pass(10).Dip(39.8).Pass(28);
        Assert.Equal("one-reading", lifted.State);
        lifted.Out(lag: 15).Pass(4).Dip(39.7).Pass(18);
        Assert.Equal(["warming", "one-reading", "in-range"], lifted.States);
        Assert.True((lifted.Batches[^1].At - lifted.Batches[1].At).TotalSeconds < 25);
    }

    [Fact]
    public void A_lift_of_less_than_ten_seconds_changes_nothing_and_a_longer_one_leaves_it_unmeasured()
    {
        var brief = InRange();
        var before = brief.States.Count;
        brief.Out().Pass(8).Dip(39.5).Pass(40);
        Assert.Equal(before, brief.States.Count);

        var gone = InRange();
        var taken = gone.Now;
        gone.Out().Pass(20);
        Assert.Equal("unmeasured", gone.State);
        Assert.InRange((gone.Batches[^1].At - taken).TotalSeconds, 10, 15);
        Assert.Null(gone.Batches[^1].Celsius);
    }

    // Quick and slow probes, in air by which they cool quickly or hardly, tenths and halves of a degree.
    [Theory]
    [InlineData(3, 3, 9.5, 0.1)]
    [InlineData(5, 6, 9.5, 0.1)]
    [InlineData(5, 40, 4, 0.5)]
    [InlineData(8, 16, 9, 0.5)]
    [InlineData(11, 40, 8, 0.1)]
    [InlineData(11, 85, 4.5, 0.1)]
    [InlineData(9, 50, 9, 0.5)]
    public void However_slow_the_probe_a_brief_lift_neither_ends_in_range_nor_begins_a_batch(double lag, double air, double seconds, double resolution)
    {
        var bench = new Bench { Resolution = (decimal)resolution }.Pass(10).Dip(39.9, lag, coolsBy: 0.003).Pass(120);
        Assert.Equal("in-range", bench.State);
        var before = bench.States.Count;
        bench.Out(lag: air).Pass(seconds).Dip(39.5, lag, coolsBy: 0.003).Pass(60);
        Assert.Equal(before, bench.States.Count);
        Assert.All(bench.Batches, told => Assert.Equal(1, told.Batch));
    }

    // Within the longer of 15 s and three time constants, in air by which a dry probe cools slowly.
    [Theory]
    [InlineData(2, 4, 0.1)]
    [InlineData(5, 40, 0.1)]
    [InlineData(5, 30, 0.5)]
    [InlineData(8, 60, 0.5)]
    [InlineData(12, 90, 0.1)]
    [InlineData(12, 90, 0.5)]
    public void A_probe_taken_out_measures_nothing_soon_after_and_is_not_in_range_again(double lag, double air, double resolution)
    {
        var bench = new Bench { Resolution = (decimal)resolution }.Pass(10).Dip(39.9, lag, coolsBy: 0.003).Pass(120);
        Assert.Equal("in-range", bench.State);
        var (taken, before) = (bench.Now, bench.Batches.Count);
        bench.Out(room: 27, lag: air).Pass(120);
        var after = bench.Batches.Skip(before).SkipWhile(told => told.State == "in-range").ToList();
        Assert.Equal("unmeasured", after[0].State);
        Assert.InRange((after[0].At - taken).TotalSeconds, 10, Math.Max(15, 3 * lag));
        Assert.DoesNotContain(after, told => told.State == "in-range");
    }

    [Theory]
    [InlineData(4)]
    [InlineData(10)]
    public void Lifted_for_a_moment_and_put_into_a_hot_one_it_is_a_stop_before_the_probe_shows_it(double lag)
    {
        var bench = new Bench().Pass(10).Dip(39.9, lag).Pass(120).Out(lag: 2 * lag).Pass(6);
        var (dipped, before) = (bench.Now, bench.Batches.Count);
        bench.Dip(47, lag).Pass(60);
        var after = bench.Batches.Skip(before).Where(told => told.StateChanged).ToList();
        Assert.Equal("stop", bench.State);
        Assert.True((after.First(told => told.State == "stop").At - dipped).TotalSeconds <= lag);
        Assert.DoesNotContain(after, told => told.State is "in-range" or "one-reading");
    }

    [Fact]
    public void Places_that_disagree_mean_stir_and_only_a_new_movement_ends_it()
    {
        var bench = new Bench().Pass(10).Dip(38.6, coolsBy: 0).Pass(30).Out(lag: 15).Pass(4).Dip(40.6, coolsBy: 0).Pass(60);
        Assert.Equal("stir", bench.State);
        bench.Out(lag: 15).Pass(5).Dip(39.6, coolsBy: 0).Pass(60);
        Assert.Equal("in-range", bench.State);
    }

    [Fact]
    public void A_hotter_place_ends_in_range_at_once()
    {
        var bench = InRange().Dip(43.5, coolsBy: 0).Pass(40);
        Assert.Equal("stop", bench.State);
        Assert.DoesNotContain("in-range", bench.States.Skip(3));
    }

    [Fact]
    public void It_cools_below_the_band_when_it_was_said_to()
    {
        var bench = new Bench().Pass(10).Dip(39.5, coolsBy: 0.005).Pass(180);
        var said = bench.Batches.Last(told => told.BelowBandAt is not null).BelowBandAt!.Value;
        bench.Pass(300);
        var cold = bench.Batches.First(told => told.State == "too-cold");
        Assert.InRange((cold.At - said).TotalSeconds, -40, 40);
        Assert.Null(bench.Batches[^1].BelowBandAt);
    }

    [Fact]
    public void The_forecast_is_told_again_when_it_moves_and_not_more_often_than_every_fifteen_seconds()
    {
        var bench = new Bench().Pass(10).Dip(40.6, coolsBy: 0.012).Pass(150);
        var told = bench.Batches.Where(one => one.State == "in-range").ToList();
        Assert.True(told.Count > 1);
        Assert.All(told.Zip(told.Skip(1)), pair => Assert.True((pair.Second.At - pair.First.At).TotalSeconds >= 15));
        Assert.All(told, one => Assert.True(one.BelowBandSoonest <= one.BelowBandAt && one.BelowBandAt <= one.BelowBandLatest));
    }

    [Fact]
    public void It_is_thrown_away_at_its_time_and_that_is_said_five_minutes_before()
    {
        var bench = new Bench().Pass(5).Scan("!BATCH").Wait(60 * 16);
        Assert.Contains("batch-discard-soon", bench.Alerts);
        bench.Wait(60 * 5);
        Assert.Equal("discard", bench.State);
        Assert.Equal(bench.Batches[0].DiscardAt, bench.Batches[^1].At);
        Assert.Equal(bench.Batches[0].MixedAt.AddMinutes(15), bench.Events.OfType<AlertEvent>().First(told => told.Alert == "batch-discard-soon").At);
    }

    [Fact]
    public void A_hot_batch_that_is_too_old_stays_a_stop()
    {
        var bench = new Bench(options => options.Feeding.Batch.DiscardMinutes = 1).Pass(10).Dip(45, coolsBy: 0).Pass(100);
        Assert.Equal("stop", bench.State);
        bench.Out().Pass(20);
        Assert.Equal("discard", bench.State);
    }

    [Fact]
    public void A_lost_link_and_a_probe_that_says_nothing_leave_it_unmeasured()
    {
        var lost = InRange().Link(LinkChange.Down);
        Assert.Equal(("unmeasured", lost.Now), (lost.State, lost.Batches[^1].At));

        var mute = InRange().Mute().Wait(6);
        Assert.Equal("unmeasured", mute.State);
        mute.Mute(silent: false).Pass(45);
        Assert.Equal("in-range", mute.State);
        Assert.All(mute.Batches, told => Assert.Equal(1, told.Batch));
    }

    [Fact]
    public void Unplugged_in_the_middle_of_a_batch_and_plugged_in_again_it_is_measured_anew_with_its_own_clock()
    {
        var bench = InRange();
        var before = bench.States.Count;
        bench.Link(LinkChange.Down).Mute().Wait(20);
        var plugged = bench.Now;
        bench.Link(LinkChange.Up).Mute(silent: false).Pass(60);
        var states = bench.States.Skip(before).ToList();
        Assert.Equal(("unmeasured", "in-range"), (states[0], states[^1]));

        // Not before the probe was at rest again.
        Assert.True((bench.Batches.Skip(before).First(told => told.State == "in-range").At - plugged).TotalSeconds > 4);
        Assert.All(bench.Batches, told => Assert.Equal((1, bench.Batches[0].DiscardAt), (told.Batch, told.DiscardAt)));
    }

    [Fact]
    public void A_clock_that_jumps_ahead_makes_it_unmeasured_and_then_too_old_and_no_moment_goes_back()
    {
        var bench = InRange();
        var before = bench.Batches.Count;
        bench.Jump(TimeSpan.FromHours(1)).Pass(60);
        var after = bench.Batches.Skip(before).ToList();
        Assert.Equal(["unmeasured", "discard"], after.Take(2).Select(told => told.State));
        Assert.Equal(bench.Batches[0].DiscardAt, after[1].At);
        Assert.DoesNotContain(after, told => told.State == "in-range" && told.Batch == 1);
        Assert.All(bench.Events.Zip(bench.Events.Skip(1)), pair => Assert.True(pair.First.At <= pair.Second.At));
    }

    [Fact]
    public void Back_in_the_same_batch_after_minutes_its_clock_goes_on_and_another_batch_gets_its_own()
    {
        var bench = InRange().Out().Pass(90).Dip(39.0).Pass(60);
        Assert.Equal(("in-range", 1), (bench.State, bench.Batches[^1].Batch));
        bench.Out().Pass(90).Dip(40.6).Pass(60);
        Assert.Equal(("in-range", 2), (bench.State, bench.Batches[^1].Batch));
        Assert.True(bench.Batches[^1].MixedAt > bench.Batches[0].MixedAt.AddMinutes(4));
    }

    [Fact]
    public void A_probe_set_to_fahrenheit_makes_it_unmeasured_and_is_said_once()
    {
        var bench = InRange();
        bench.Fahrenheit = true;
        bench.Pass(20);
        Assert.Equal("unmeasured", bench.State);
        var alert = Assert.Single(bench.Events.OfType<AlertEvent>(), told => told.Alert == "not-formula");
        Assert.Contains("39.", alert.Text, StringComparison.Ordinal);
        Assert.DoesNotContain(bench.Events.OfType<ProbeEvent>(), told => told.Celsius > 60);
    }

    [Fact]
    public void A_probe_set_to_fahrenheit_from_the_start_never_measures_and_both_numbers_are_said()
    {
        // 40 °C is 104 °F: a room of 23 °C is 73.4 °F, which the alert explains before the probe is dipped.
        var bench = new Bench { Fahrenheit = true };
        bench.Pass(10).Dip(40, coolsBy: 0).Pass(60);
        Assert.DoesNotContain(bench.Events, told => told is BatchEvent or ProbeEvent);
        var alert = Assert.Single(bench.Events.OfType<AlertEvent>());
        Assert.Equal("not-formula", alert.Alert);
        Assert.Contains("73.4 °C", alert.Text, StringComparison.Ordinal);
        Assert.Contains("23.0 °C", alert.Text, StringComparison.Ordinal);

        var dipped = new Bench(from: bench.Now) { Fahrenheit = true };
        dipped.Dip(40, 0.01, coolsBy: 0).Pass(5);
        Assert.Contains("104.0 °C", Assert.Single(dipped.Events.OfType<AlertEvent>()).Text, StringComparison.Ordinal);
        Assert.Contains("that is 40.0 °C", dipped.Events.OfType<AlertEvent>().Single().Text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_house_that_reads_fahrenheit_is_told_fahrenheit()
    {
        var bench = new Bench(options => options.Feeding.Batch.Show = "F").Pass(10).Dip(47, coolsBy: 0).Pass(60);
        var alert = bench.Events.OfType<AlertEvent>().Last(told => told.Alert == "batch-stop");
        Assert.Contains("°F", alert.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("°C", alert.Text, StringComparison.Ordinal);
        Assert.InRange(bench.Batches[^1].Celsius!.Value, 46.8m, 47.2m);
    }

    [Fact]
    public void Air_and_cool_rinse_water_begin_nothing()
    {
        var bench = new Bench().Pass(10).Dip(27, 3).Pass(30).Out().Pass(30);
        Assert.Empty(bench.Batches);
        Assert.Empty(bench.Events.OfType<ProbeEvent>());
    }

    [Fact]
    public void Two_probes_have_two_batches()
    {
        var bench = new Bench(options => options.Devices.Add(new DeviceOptions { Id = "second", Role = "probe", Dialect = "text" }));
        bench.Pass(10).Dip(39.6).Pass(20).Dip(45, probe: "second").Pass(50);
        Assert.Equal("in-range", bench.Batches.Last(told => told.Device == "probe").State);
        Assert.Equal("stop", bench.Batches.Last(told => told.Device == "second").State);
        Assert.Equal([1, 2], bench.Batches.Select(told => told.Batch).Distinct().Order());
    }

    [Fact]
    public void A_batch_card_taken_back_lets_the_batch_before_go_on_with_its_own_clock()
    {
        var bench = InRange().Scan("!BATCH").Pass(40);
        Assert.Equal((2, "in-range"), (bench.Batches[^1].Batch, bench.State));
        bench.Scan("!UNDO");
        Assert.Equal("batch", Assert.Single(bench.Events.OfType<UndoEvent>()).Undone);
        Assert.Equal((1, "unmeasured", bench.Batches[0].DiscardAt), (bench.Batches[^1].Batch, bench.State, bench.Batches[^1].DiscardAt));
        bench.Pass(30);
        Assert.Equal((1, "in-range"), (bench.Batches[^1].Batch, bench.State));
        bench.Scan("!FED").Pass(1).Scan("AM-0147").Pass(1);
        Assert.Equal(1, Assert.Single(bench.Events.OfType<FeedEvent>()).Batch);
        bench.Wait(60 * 20);
        Assert.Equal(bench.Batches[0].DiscardAt, bench.Batches.Last(told => told.State == "discard").At);
        Assert.DoesNotContain(bench.Batches, told => told.Batch == 2 && told.At > bench.Batches[0].DiscardAt);
    }

    [Fact]
    public void The_same_records_give_the_same_events()
    {
        var bench = InRange().Out().Pass(20).Dip(40.6).Pass(60).Wait(60 * 25);
        var again = new Bench();
        Assert.Equal(bench.Events.Select(told => told.ToString()), Replay(bench).Select(told => told.ToString()));
        Assert.Empty(again.Events);
    }

    private static List<StationEvent> Replay(Bench bench)
    {
        var core = new Agent.Round.StationCore(
            new StationOptions
            {
                Devices = [new DeviceOptions { Id = "probe", Role = "probe", Dialect = "text" }, new DeviceOptions { Id = "scanner", Role = "scanner", Dialect = "line" }],
            },
            new Agent.Round.Ledger([], [], []));
        List<StationEvent> events = [];
        foreach (var record in bench.Trace)
            core.Accept(record, events);
        core.Expire(bench.Now, events);
        return events;
    }
}
