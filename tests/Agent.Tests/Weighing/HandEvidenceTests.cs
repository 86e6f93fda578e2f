using CaptureAgent.Agent.Weighing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Weighing;

/// <summary>Whether a hand may still be on the chick.</summary>
public sealed class HandEvidenceTests
{
    [Fact]
    public void A_hand_seen_to_leave_need_not_be_waited_for_where_the_weight_is_as_expected()
    {
        var hand = Landed();
        Assert.True(hand.Excluded(new Plateau(3, 5.1, 186, 0.5, 1.2), 185));
        Assert.False(hand.Excluded(new Plateau(3, 4.0, 186, 0.5, 1.2), 185));
    }

    [Fact]
    public void A_weight_that_came_in_one_go_must_outlast_a_hand()
    {
        var hand = Landed();
        Assert.False(hand.Excluded(new Plateau(1, 6, 186, 0.5, 0.1), 185));
        Assert.True(hand.Excluded(new Plateau(1, 8, 186, 0.5, 0.1), 185));
    }

    [Theory]
    [InlineData(0.1, 5, 0.1, true)]
    [InlineData(0.1, 8, 0.1, false)]
    [InlineData(0.1, 5, 1.2, false)]
    [InlineData(0.5, 5, 0.1, false)]
    public void What_is_as_still_as_a_thing_from_its_landing_on_may_be_held_for_a_hand_s_time(double motion, double until, double stop, bool may) =>
        Assert.Equal(may, Landed().IsStillUnseen(new Plateau(1, until, 186, motion, stop)));

    [Fact]
    public void A_level_off_the_expected_weight_must_stand_for_longer()
    {
        var hand = Landed();
        Assert.False(hand.Excluded(new Plateau(1, 10, 160, 0.5, 0.1), 185));
        Assert.True(hand.Excluded(new Plateau(1, 14, 160, 0.5, 0.1), 185));
    }

    [Theory]
    [InlineData(152, 0.05, false)]
    [InlineData(152, 0.5, false)]
    [InlineData(160, 0.05, false)]
    [InlineData(160, 0.5, true)]
    [InlineData(225, 0.05, false)]
    [InlineData(225, 0.5, true)]
    public void A_level_far_below_the_expected_weight_or_still_and_far_off_is_likelier_a_hand_that_stays(double grams, double motion, bool isChick)
    {
        var hand = Landed();
        Assert.Equal(isChick, hand.Excluded(new Plateau(1, 15, grams, motion, 0.1), 185));
        Assert.True(hand.Excluded(new Plateau(1, 20, grams, motion, 0.1), 185));
    }

    [Theory]
    [InlineData(170, 0.05, true)]
    [InlineData(200, 0.05, true)]
    [InlineData(170, 0.5, false)]
    [InlineData(182, 0.05, false)]
    public void A_still_level_off_the_expected_weight_is_left_to_no_chance(double grams, double motion, bool isLeft) =>
        Assert.Equal(isLeft, HandEvidence.IsStillAndOff(new Plateau(1, 8, grams, motion, 0.1), 185));

    [Fact]
    public void A_stiller_level_after_a_livelier_one_is_a_hand_that_came()
    {
        var hand = Landed();
        hand.Leave(new Plateau(1, 6, 186, 2, 0.1));
        Assert.False(hand.Excluded(new Plateau(6, 16, 190, 0.05, 0.1), 188));
    }

    [Fact]
    public void A_livelier_level_after_a_still_one_is_a_chick_that_was_let_go()
    {
        var hand = Landed();
        hand.Leave(new Plateau(1, 5, 183, 0.02, 0.1));
        Assert.True(hand.Excluded(new Plateau(5, 7, 186, 1.1, 0.1), 185));
    }

    [Fact]
    public void A_level_after_one_that_a_hand_was_seen_to_leave_is_a_hand_that_came_back()
    {
        var hand = Landed();
        hand.Leave(new Plateau(3, 5, 186, 0.5, 1.2));
        Assert.False(hand.Excluded(new Plateau(5, 11, 189, 1.5, 1.2), 187));
    }

    [Fact]
    public void Where_nothing_is_expected_the_hand_s_time_decides()
    {
        var hand = Landed();
        Assert.False(hand.Excluded(new Plateau(3, 6, 186, 0.5, 1.2), double.NaN));
        Assert.True(hand.Excluded(new Plateau(3, 8, 186, 0.5, 1.2), double.NaN));
    }

    [Fact]
    public void A_chick_that_moves_as_it_usually_does_need_not_outlast_a_hand()
    {
        var hand = Landed();
        Assert.False(hand.Excluded(new Plateau(1, 4.5, 186, 1, 0.1), 185));
        Assert.True(hand.Excluded(new Plateau(1, 4.5, 186, 1, 0.1), 185, Likeness.Usual));
        Assert.False(hand.Excluded(new Plateau(1, 3.2, 186, 1, 0.1), 185, Likeness.Usual));
        Assert.False(hand.Excluded(new Plateau(1, 4.5, 178, 1, 0.1), 185, Likeness.Usual));
    }

    [Fact]
    public void A_chick_stiller_than_it_ever_was_may_have_a_hand_on_it_though_one_was_seen_to_leave()
    {
        var hand = Landed();
        Assert.True(hand.Excluded(new Plateau(3, 5.1, 186, 0.1, 1.2), 185));
        Assert.False(hand.Excluded(new Plateau(3, 10, 186, 0.1, 1.2), 185, Likeness.Stiller));
        Assert.True(hand.Excluded(new Plateau(3, 11, 186, 0.1, 1.2), 185, Likeness.Stiller));
    }

    private static HandEvidence Landed()
    {
        var hand = new HandEvidence();
        hand.Clear();
        hand.Land(1);
        return hand;
    }
}
