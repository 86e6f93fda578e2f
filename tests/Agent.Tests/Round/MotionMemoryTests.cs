using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Tests.Support;
using CaptureAgent.Agent.Weighing;
using CaptureAgent.Store;
using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

/// <summary>What earlier mornings showed of how a chick moves.</summary>
public sealed class MotionMemoryTests
{
    private static readonly DateOnly Today = new(2026, 3, 2);

    [Fact]
    public void A_habit_is_the_median_of_the_mornings_before_today()
    {
        var memory = new MotionMemory(
        [
            Row("AM-0147", Today.AddDays(-40), 50), Row("AM-0147", Today.AddDays(-5), 0.8), Row("AM-0147", Today.AddDays(-4), 1), Row("AM-0147", Today.AddDays(-3), 9),
            Row("AM-0147", Today.AddDays(-2), 1.2), Row("AM-0147", Today.AddDays(-1), 1.1), Row("AM-0147", Today, 50),
        ]);
        var habit = memory.HabitOf("AM-0147", Today);
        Assert.Equal(5, habit.Mornings);
        Assert.Equal(Math.Log(1.1 / 200), habit.LogForce, 1e-9);
        Assert.Equal(0, memory.HabitOf("CN-0321", Today).Mornings);
    }

    [Fact]
    public void The_spread_from_morning_to_morning_is_the_nursery_s()
    {
        // Twenty chicks of a wide spread of their own: each habit's middle is its own, the spread is pooled, and one wild morning does not widen it.
        var random = new Random(3);
        var rows = Enumerable.Range(0, 20).SelectMany(chick => Enumerable.Range(1, 6).Select(days =>
            Row($"CH-00{chick:00}", Today.AddDays(-days), (1 + chick) * Math.Exp((days == 3 && chick == 7 ? 20 : 0.8) * random.NextNormal()))));
        var habit = new MotionMemory([.. rows.OrderBy(row => row.Day)]).HabitOf("CH-0004", Today);
        Assert.InRange(habit.ForceSpread, 0.55, 0.95);
        Assert.InRange(new MotionMemory([Row("CH-0001", Today.AddDays(-1), 1)]).HabitOf("CH-0001", Today).ForceSpread, 0.45, 0.55);
    }

    [Fact]
    public void A_weighing_taken_back_is_forgotten()
    {
        MotionRow[] rows = [Row("AM-0147", Today.AddDays(-2), 1), Row("AM-0147", Today.AddDays(-1), 3)];
        var memory = new MotionMemory(rows);
        memory.Remove("AM-0147", rows[1].Weighing);
        Assert.Equal((1, Math.Log(1 / 200.0)), (memory.HabitOf("AM-0147", Today).Mornings, memory.HabitOf("AM-0147", Today).LogForce));
    }

    [Fact]
    public void A_scale_s_noise_is_the_median_of_its_weighings()
    {
        MotionRow Still(long micrograms) => Row("AM-0147", Today.AddDays(-1), 1) with { Motion = new EvidenceMotion(1, 1, micrograms) };
        var memory = new MotionMemory([Still(20_000), Still(30_000), Still(5_000_000)]);
        Assert.Equal(0.03, memory.StillDeviationOf("scale"), 1e-9);
        Assert.Equal(0, memory.StillDeviationOf("other"));
    }

    [Fact]
    public void An_accepted_weighing_keeps_its_motion_with_its_evidence()
    {
        var accepted = new Scene().Towel().Scan("AM-0147").Chick(186.4, noise: 1).TheWeighing;
        Assert.InRange(accepted.Evidence!.Motion!.ForceMicrograms, 200_000, 3_000_000);
        Assert.True(accepted.Evidence.Motion.MomentumMicrograms > 0);
        Assert.Null(new Scene().Towel().Scan("AM-0147").Chick(186.4, 1).Lift(194.6).TheWeighing.Evidence!.Motion);
    }

    [Fact]
    public void A_chick_much_stiller_than_it_ever_was_must_outlast_a_hand_and_the_evidence_says_what_was_known()
    {
        // A hand that lowered it and seems to leave, but the chick hardly moves: on any other morning that would do at once.
        Scene Weighed(params MotionRow[] rows) => new Scene(ledger: Known(rows)).Towel().Scan("AM-0147").Chick(186.4, seconds: 18, noise: 0.05);
        var unknown = Weighed().TheWeighing;
        var known = Weighed([.. Enumerable.Range(1, 4).Select(days => Row("AM-0147", Today.AddDays(-days), 2)).Reverse()]).TheWeighing;
        Assert.Equal(("accepted", "accepted"), (unknown.Verdict, known.Verdict));
        Assert.InRange((known.At - unknown.At).TotalSeconds, 3, 8);
        Assert.Equal(4, EvidenceReader.Read(known.Evidence!).Placing.Habit.Mornings);
        Assert.Equal(Math.Log(2.0 / 200), EvidenceReader.Read(known.Evidence!).Placing.Habit.LogForce, 1e-9);
        Assert.Equal(default, EvidenceReader.Read(unknown.Evidence!).Placing.Habit);
    }

    [Fact]
    public void A_chick_that_moves_as_it_did_on_other_mornings_is_weighed_before_a_hand_s_time_is_over()
    {
        // Set down and let go in one go: nothing is seen of the hand. One that is as still as under a hand must outlast it; one that moves need not, whether its ways are known or not.
        Scene Moving(double noise, params MotionRow[] rows) => new Scene(ledger: Known(rows)).Towel().Scan("AM-0147").Ramp(0.5, 8.2, 194.6).Hold(12, 194.6, noise);
        Scene SetDown(params MotionRow[] rows) => Moving(1, rows);
        var (still, unknown) = (Moving(0.05).TheWeighing, SetDown().TheWeighing);
        var moved = unknown.Evidence!.Motion!;
        var known = SetDown([.. Enumerable.Range(1, 4).Reverse().Select(days => new MotionRow(Guid.NewGuid(), "AM-0147", Today.AddDays(-days), "scale", 186_400, moved))]).TheWeighing;
        Assert.Equal(("accepted", "accepted"), (unknown.Verdict, known.Verdict));
        Assert.True(still.At - unknown.At > TimeSpan.FromSeconds(1), $"{still.At:ss.f} and {unknown.At:ss.f}");
        Assert.True(known.At <= unknown.At, $"{unknown.At:ss.f} and {known.At:ss.f}");
        Assert.InRange(known.Grams!.Value, 185.9m, 186.9m);
    }

    private static Ledger Known(MotionRow[] rows)
    {
        var nursery = Scene.Nursery();
        return new Ledger(nursery.Chicks, [.. nursery.WeightsOf("AM-0147").Select(weight => new WeighingRow(
            weight.Id, "AM-0147", null, "Etc/UTC", weight.Day, (long)(weight.Grams * 1000), null, null, Verdict.Accepted, [], null, null, Origin.Imported, "test", null))], [])
        {
            Motions = new MotionMemory(rows),
        };
    }

    // Of 200 g; grams, and a fifth as many gram-seconds.
    private static MotionRow Row(string code, DateOnly day, double force) =>
        new(Guid.NewGuid(), code, day, "scale", 200_000, new EvidenceMotion((long)(force * 1e6), (long)(force * 2e5), 20_000));
}
