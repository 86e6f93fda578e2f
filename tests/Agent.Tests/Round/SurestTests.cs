using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Rejudging;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Weighing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

/// <summary>A chick that is taken before its weight was sure enough to be told is recorded with what was surest of it, where that is sure enough for the alternative: nothing.</summary>
public sealed class SurestTests
{
    private const double Grams = 186.4;

    private static readonly double[] Noises = [0.5, 1, 2, 3, 4];

    [Fact]
    public void What_was_surest_is_recorded_at_the_lift_and_judged_so_again()
    {
        // So far off the expected weight that it is not believed at once.
        var atTheLift = 0;
        foreach (var light in (double[])[0.93, 0.94, 1.07])
        {
            foreach (var seconds in (double[])[6, 7, 8, 9])
            {
                foreach (var noise in (double[])[1, 2, 3])
                {
                    var grams = light * Grams;
                    var scene = Taken(seconds, noise, grams);
                    if (scene.TheWeighing.Verdict != "accepted")
                        continue;
                    Assert.InRange((double)scene.TheWeighing.Grams!, 0.997 * grams, 1.003 * grams);
                    if (scene.TheWeighing.At < scene.Events.OfType<LiftedEvent>().First().At)
                        continue;
                    atTheLift++;
                    var run = EvidenceRun.Of(EvidenceReader.Read(scene.TheWeighing.Evidence!), StationCore.NewSettler());
                    Assert.Equal(SettleState.Settled, run.State);
                    Assert.Equal(scene.TheWeighing.Grams, Math.Round((decimal)run.Weight.Grams, 3));
                }
            }
        }

        Assert.NotEqual(0, atTheLift);
    }

    /// <summary>So long a hand may rest on it.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2.5)]
    [InlineData(4)]
    public void What_is_taken_too_soon_is_refused_however_sure_it_looks(double seconds)
    {
        foreach (var noise in Noises)
        {
            var scene = Taken(seconds, noise);
            if (scene.TheWeighing.Verdict == "accepted")
                Assert.True(scene.TheWeighing.At < scene.Events.OfType<LiftedEvent>().First().At, $"noise {noise}");
        }
    }

    /// <summary>Who lay there for long, and was not sure in all that time, had its chance.</summary>
    [Fact]
    public void What_lay_there_for_long_is_not_recorded_at_the_lift()
    {
        foreach (var noise in Noises)
        {
            var scene = new Scene().Towel().Scan("AM-0147").Ramp(0.5, 8.2, 8.2 + 0.94 * Grams).Hold(16, 8.2 + 0.94 * Grams, noise / 10).Lift(8.2 + 0.94 * Grams);
            if (scene.TheWeighing.Verdict == "accepted")
                Assert.True(scene.TheWeighing.At < scene.Events.OfType<LiftedEvent>().First().At, $"noise {noise}");
        }
    }

    /// <summary>What a hand carried is no weight once it has let go, however sure it looked until then.</summary>
    [Fact]
    public void A_hand_that_was_seen_to_leave_takes_its_level_with_it()
    {
        foreach (var held in (double[])[2.5, 3.5, 4.5])
        {
            foreach (var share in (double[])[0.95, 0.97, 1.04])
            {
                foreach (var noise in Noises)
                {
                    var carried = 8.2 + share * Grams;
                    var scene = new Scene().Towel().Scan("AM-0147").Ramp(0.5, 8.2, carried).Hold(held, carried, 0.3).Ramp(0.2, carried, 8.2 + Grams).Hold(3.5, 8.2 + Grams, noise).Lift(8.2 + Grams);
                    if (scene.TheWeighing.Verdict == "accepted" && scene.TheWeighing.At >= scene.Events.OfType<LiftedEvent>().First().At)
                        Assert.InRange((double)scene.TheWeighing.Grams!, 0.99 * Grams, 1.01 * Grams);
                }
            }
        }
    }

    // Let go at once: no hand is seen to leave.
    private static Scene Taken(double seconds, double noise, double grams = Grams) =>
        new Scene().Towel().Scan("AM-0147").Ramp(0.5, 8.2, 8.2 + grams).Hold(seconds, 8.2 + grams, noise).Lift(8.2 + grams);
}
