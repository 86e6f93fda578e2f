using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Tests.Round;
using CaptureAgent.Store;
using Xunit;

namespace CaptureAgent.Agent.Tests.Hygiene;

public sealed class HygieneClockTests
{
    [Fact]
    public void The_round_begins_with_the_chores_that_are_due_and_a_card_does_them()
    {
        var scene = new Scene().Scan("AM-0147").Wait(1);
        Assert.Equal(["wash", "syringe"], Due(scene));
        scene.Scan("!WASHED").Wait(1).Scan("!SYRINGE");
        Assert.Equal(["wash", "syringe"], scene.Events.OfType<ChoreEvent>().Select(chore => chore.Chore));

        // Two hours later another round: all is done. Thirteen hours later the wash is due again.
        scene.Wait(7200).Scan("GR-0096").Wait(11 * 3600).Scan("AM-0147");
        Assert.Equal(["wash", "syringe", "wash"], Due(scene));
    }

    [Fact]
    public void Within_a_round_nothing_is_said_twice() =>
        Assert.Equal(["wash", "syringe"], Due(new Scene().Scan("AM-0147").Wait(30).Scan("GR-0096").Wait(1800).Scan("CN-0321")));

    [Fact]
    public void A_feed_round_is_not_asked_for_the_pan() =>
        Assert.Empty(Due(new Scene().Scan("!FED").Wait(1).Scan("AM-0147")));

    [Fact]
    public void Bowls_are_asked_for_once_a_chick_of_the_weaning_age_is_here() =>
        Assert.Contains("bowls", Due(new Scene(ledger: new Ledger([new Chick("AM-0147", null, new DateOnly(2026, 1, 20))], [], [])).Scan("AM-0147")));

    [Fact]
    public void The_pan_is_disinfected_between_clutches()
    {
        var scene = Clutches().Scan("AM-0001").Wait(30).Scan("AM-0002").Wait(30).Scan("AM-0003");
        Assert.Equal(["wash", "syringe", "pan"], Due(scene));

        var clean = Clutches().Scan("AM-0001").Wait(30).Scan("!PAN").Wait(30).Scan("AM-0003");
        Assert.Equal(["wash", "syringe"], Due(clean));
    }

    [Fact]
    public void What_is_not_wanted_is_not_asked_for()
    {
        var scene = new Scene(options => (options.Hygiene.WashHours, options.Hygiene.SyringeDays) = (0, 0)).Scan("AM-0147");
        Assert.Empty(Due(scene));
    }

    private static Scene Clutches() => new(ledger: new Ledger(
        [
            new Chick("AM-0001", null, new DateOnly(2026, 2, 20), Clutch: "c1"), new Chick("AM-0002", null, new DateOnly(2026, 2, 20), Clutch: "c1"),
            new Chick("AM-0003", null, new DateOnly(2026, 2, 20), Clutch: "c2"),
        ],
        [], []));

    private static IEnumerable<string> Due(Scene scene) => scene.Events.OfType<DueEvent>().Select(due => due.Due);
}
