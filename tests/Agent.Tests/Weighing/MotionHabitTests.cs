using CaptureAgent.Agent.Weighing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Weighing;

/// <summary>A level's motion beside that of the chick's other mornings.</summary>
public sealed class MotionHabitTests
{
    // Half a per cent of force, a tenth of a per cent-second of momentum, and a spread of a third.
    private static readonly MotionHabit Calm = new(Math.Log(0.005), Math.Log(0.001), 0.35, 0.35, 5);

    [Theory]
    [InlineData(0.005, 0.001, nameof(Likeness.Usual))]
    [InlineData(0.0036, 0.0008, nameof(Likeness.Usual))]
    [InlineData(0.0015, 0.0003, nameof(Likeness.Stiller))]
    [InlineData(0.005, 0.0002, nameof(Likeness.Stiller))]
    [InlineData(0.0025, 0.001, nameof(Likeness.Unknown))]
    [InlineData(0.02, 0.001, nameof(Likeness.Unknown))]
    public void What_is_usual_for_one_chick_is_told_from_what_is_markedly_stiller(double force, double momentum, string likeness) =>
        Assert.Equal(likeness, Compare(Calm, force, momentum).ToString());

    [Fact]
    public void A_tremor_with_a_chick_s_force_has_not_its_momentum()
    {
        // The same force at 8 Hz in place of 1 Hz has an eighth of the momentum.
        Assert.Equal(Likeness.Stiller, Compare(Calm, 0.005, 0.001 / 8));
    }

    [Fact]
    public void Too_few_mornings_tell_nothing()
    {
        Assert.Equal(Likeness.Unknown, Compare(Calm with { Mornings = 2 }, 0.005, 0.001));
        Assert.Equal(Likeness.Unknown, Compare(default, 0.0001, 0.0001));
    }

    [Fact]
    public void What_rounding_would_hide_tells_nothing()
    {
        var coarse = new Motion(0.5, 0.1, 1, 0.3);
        Assert.Equal(Likeness.Unknown, Calm.Compare(coarse, coarse, 100));
        var still = new Motion(0.3, 0.1, 1, 0.3);
        Assert.Equal(Likeness.Unknown, Calm.Compare(still, still, 100));
    }

    [Fact]
    public void Where_one_half_of_the_stretch_is_still_the_motion_is_not_the_chick_s()
    {
        var (whole, half) = (Of(0.005, 0.001), Of(0.002, 0.0004));
        Assert.Equal(Likeness.Unknown, Calm.Compare(whole, half, 200));
    }

    [Fact]
    public void A_sleeper_s_usual_motion_is_not_told_from_a_resting_hand_s()
    {
        var sleeper = new MotionHabit(Math.Log(0.0008), Math.Log(0.0002), 0.35, 0.35, 5);
        Assert.Equal(Likeness.Unknown, Compare(sleeper, 0.0008, 0.0002));
    }

    private static Likeness Compare(in MotionHabit habit, double force, double momentum) => habit.Compare(Of(force, momentum), Of(force, momentum), 200);

    // Of 200 g, on a scale of 0.1 g.
    [Fact]
    public void Its_signs_are_shares_of_what_is_usual_and_nothing_where_too_few_mornings_are_known()
    {
        var (motion, half) = (new Motion(0.25, 0.2, 0.05, 0.01), new Motion(0.125, 0.05, 0.05, 0.01));
        Assert.Equal([0.5f, 2f, 0.25f, 0.5f, 0.1f, 0.1f], Shown(Calm), (shown, asked) => Math.Abs(shown - asked) < 1e-6);
        Assert.All(Shown(Calm with { Mornings = 2 }), shown => Assert.Equal(Signs.None, shown));

        float[] Shown(MotionHabit habit)
        {
            var signs = new Signs();
            habit.Show(signs, motion, half, 100);
            return [.. signs.Values];
        }
    }

    private static Motion Of(double force, double momentum) => new(200 * force, 200 * momentum, 0.03, 0.01);
}
