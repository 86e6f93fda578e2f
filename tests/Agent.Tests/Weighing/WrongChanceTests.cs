using CaptureAgent.Agent.Weighing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Weighing;

public sealed class WrongChanceTests
{
    private static readonly Plateau Level = new(2, 6, 100, 0.1, 0);

    [Theory]
    [InlineData(100, 0.2, 0.1, true)]
    [InlineData(120, 0.2, 0.1, true)]
    [InlineData(125, 0.2, 0.1, false)]
    [InlineData(double.NaN, 0.2, 0.1, false)]
    [InlineData(100, 0.3, 0.1, false)]
    [InlineData(100, 0.2, 0.25, false)]
    public void Only_chicks_not_far_off_the_expected_weight_that_are_known_well_enough_on_a_tare_that_is_are_asked_about(double expected, double error, double tare, bool asked) =>
        Assert.Equal(asked, WrongChance.IsFor(new Acceptance(0.3, Level, expected), error, tare));

    [Fact]
    public void One_good_look_is_not_taken_at_its_word()
    {
        var (good, bad) = (Shown(likely: true), Shown(likely: false));
        var steady = new WrongChance();
        Assert.Contains(Enumerable.Range(0, 40), i => steady.IsSmall(good, 5 + 0.2 * i, 5 + 0.2 * i, isAnimal: true));

        // After a doubtful level the same look must last.
        var once = new WrongChance();
        for (var i = 0; i < 10; i++)
            Assert.False(once.IsSmall(bad, 5 + 0.2 * i, 5 + 0.2 * i, isAnimal: false));
        Assert.False(once.IsSmall(good, 7, 7, isAnimal: true));
    }

    /// <summary>Most of what is wrong of the first ten seconds are hands and draughts.</summary>
    [Fact]
    public void Less_is_allowed_at_first_of_what_does_not_move_like_an_animal()
    {
        Assert.All([1.0, 5, 7.4, 7.5, 10], landed => Assert.True(WrongChance.Allowed(landed, isAnimal: false) < 0.5 * WrongChance.Allowed(landed, isAnimal: true)));
        Assert.All([10.1, 15, 30], landed => Assert.Equal(WrongChance.Allowed(landed, isAnimal: true), WrongChance.Allowed(landed, isAnimal: false)));
        Assert.True(WrongChance.Allowed(9, isAnimal: true) < WrongChance.Allowed(5, isAnimal: true) && WrongChance.Allowed(5, isAnimal: true) < WrongChance.Allowed(20, isAnimal: true));
    }

    // A calm chick of 100 g at 10 Hz, four seconds after it was let go; or one that weighs an eighth less and strays slowly, with no sign that a hand went.
    private static Signs Shown(bool likely)
    {
        (string Name, double Good, double Bad)[] values =
        [
            ("off", 0.005, -0.12), ("distance", 0.005, 0.12), ("allowed", 1, 1),
            ("animal", 1, 0), ("free", 1, 0), ("error", 0.15, 0.4),
            ("error with wander", 0.15, 0.5), ("wander", 0.1, 0.5), ("tare", 0.1, 0.1),
            ("stretch", 4, 4), ("motion", 0.8, 0.8), ("division", 0.001, 0.001),
            ("level", 4, 4), ("stop", 1.5, 0), ("level motion", 0.003, 0.003),
            ("since landing", 6, 6), ("levels", 1, 0), ("freed", 1, 0),
            ("before: off", -0.3, -1), ("before: stop", 0, -1), ("before: seconds", 2, -1),
            ("before: motion", 0.0005, -1), ("whole", 3.8, 3.8), ("whole scatter", 0.8, 0.8),
            ("whole motion", 0.003, 0.003), ("quick spread", 0.15, 0.7), ("quick white", 0.1, 0.1),
            ("quick count", 6, 6), ("slow spread", 0.08, 0.6), ("slow white", 0.07, 0.07),
            ("slow count", 3, 3), ("slowest spread", -1, -1), ("quick favour", 1, -2),
            ("slow favour", 1, -2), ("stepped", 1, 0), ("delay", 0.2, 0.2),
            ("fastest rise", 0.45, 0.45), ("still", 0.3, 0.3), ("readings a second", 10, 10),
            ("since arrival", 4, 4), ("highest", 0.02, 0.02), ("roughness", 0.2, 0.2),
            ("usual force", -1, -1), ("usual momentum", -1, -1), ("usual force of half", -1, -1),
            ("usual momentum of half", -1, -1), ("usual force: noise", -1, -1), ("usual momentum: noise", -1, -1),
        ];
        var signs = new Signs();
        foreach (var name in Signs.Names)
        {
            var (_, good, bad) = Array.Find(values, value => value.Name == name);
            signs.Add(likely ? good : bad);
        }

        return signs;
    }
}
