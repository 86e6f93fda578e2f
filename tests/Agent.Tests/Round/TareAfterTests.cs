using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Trace;
using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

/// <summary>After the lift the pan is compared with the tare of the weighing.</summary>
public sealed class TareAfterTests
{
    [Fact]
    public void A_liner_that_is_as_it_was_is_noted_and_nothing_is_said()
    {
        var scene = Weighed().Lift(194.6, rest: 4);
        var tare = TheTare(scene);
        Assert.Equal(("AM-0147", "scale", false), (tare.Chick, tare.Device, tare.Slip));
        Assert.Equal((8.2m, 8.2m), (Math.Round(tare.TareGrams, 1), Math.Round(tare.AfterGrams, 1)));
        Assert.Equal(tare.AfterGrams - tare.TareGrams, tare.ChangeGrams);
        Assert.InRange(tare.UncertaintyGrams, 0.04m, 0.1m);
        Assert.Equal(scene.TheWeighing.Grams!.Value, tare.DriftFreeGrams!.Value, 1);
        Assert.Empty(Looks(scene));
    }

    [Fact]
    public void Droppings_left_behind_are_said_with_what_to_do_and_the_told_weight_stays()
    {
        var scene = Weighed().Lift(194.6, tare: 9.4, rest: 4);
        var tare = TheTare(scene);
        Assert.Equal((true, 1.2m, null), (tare.Slip, Math.Round(tare.ChangeGrams, 1), tare.DriftFreeGrams));
        var look = Assert.Single(Looks(scene));
        Assert.Equal(("AM-0147", "scale"), (look.Chick, look.Device));
        Assert.Contains("1.2 g more", look.Text, StringComparison.Ordinal);
        Assert.Contains("dropping", look.Text, StringComparison.Ordinal);
        Assert.Contains("re-weigh card", look.Text, StringComparison.Ordinal);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 185.9m, 186.9m);
    }

    [Fact]
    public void A_liner_that_hung_over_and_was_lifted_free_is_said_too()
    {
        // The towel's edge lay on the bench while the tare was taken, and the chick pulled it onto the pan.
        var scene = Weighed(tare: 6.4, net: 188.2).Lift(194.6, tare: 8.2, rest: 4);
        Assert.Equal(1.8m, Math.Round(TheTare(scene).ChangeGrams, 1));
        Assert.Contains("may be off by as much", Assert.Single(Looks(scene)).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_liner_that_is_lighter_afterwards_is_said_in_other_words()
    {
        var scene = Weighed().Lift(194.6, tare: 7.2, rest: 4);
        var text = Assert.Single(Looks(scene)).Text;
        Assert.Contains("1.0 g less", text, StringComparison.Ordinal);
        Assert.DoesNotContain("dropping", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_slip_is_said_once_it_is_more_than_the_weight_may_be_off()
    {
        // 0.3 % of 186.4 g is 0.56 g; of 24.6 g less than a division.
        Assert.Empty(Looks(Weighed().Lift(194.6, tare: 8.7, rest: 4)));
        Assert.Single(Looks(Weighed().Lift(194.6, tare: 8.9, rest: 4)));
        Assert.Empty(Looks(Light().Lift(32.8, tare: 8.3, rest: 4)));
        Assert.Single(Looks(Light().Lift(32.8, tare: 8.5, rest: 4)));

        static Scene Light() => new Scene(ledger: Scene.Nursery(("LB-0008", "2026-03-01", 23.4m))).Towel().Scan("LB-0008").Hold(1, 8.2).Chick(24.6, noise: 0.05);
    }

    [Fact]
    public void A_refused_weighing_keeps_its_tares_and_is_no_look()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Hold(1, 8.2).Chick(186.4, 1).Lift(194.6, tare: 9.4, rest: 4);
        Assert.Equal("rejected", scene.TheWeighing.Verdict);
        Assert.True(TheTare(scene).Slip);
        Assert.Empty(Looks(scene));
    }

    [Fact]
    public void A_code_that_comes_after_the_lift_is_given_the_tares_that_were_seen_before_it()
    {
        var scene = new Scene().Towel().Hold(3, 8.2).Chick(186.4, 9).Lift(194.6, tare: 9.4, rest: 2.7).Scan("AM-0147").Hold(2, 9.4);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        Assert.Equal("AM-0147", TheTare(scene).Chick);
        Assert.Single(Looks(scene));
        var told = scene.Events.ToList();
        Assert.True(told.IndexOf(scene.TheWeighing) < told.IndexOf(TheTare(scene)), "a note follows what it belongs to");
    }

    [Fact]
    public void A_towel_that_is_swapped_is_no_slip()
    {
        var quick = Weighed().Lift(194.6, rest: 0.5).Ramp(0.3, 8.2, 0).Hold(0.8, 0).Ramp(0.3, 0, 8.9).Hold(4, 8.9);
        Assert.Empty(Tares(quick));
        Assert.Empty(Looks(quick));

        var later = Weighed().Lift(194.6, rest: 4).Ramp(0.3, 8.2, 0).Hold(2, 0).Ramp(0.3, 0, 8.9).Hold(4, 8.9).Scan("GR-0096").Hold(1, 8.9).Chick(312, tare: 8.9);
        Assert.Equal(8.2m, Math.Round(TheTare(later).AfterGrams, 1));
        Assert.Empty(Looks(later));
        Assert.InRange(later.Weighings[1].Grams!.Value, 311.4m, 312.6m);
    }

    [Fact]
    public void A_towel_that_goes_with_the_chick_is_no_slip()
    {
        var scene = Weighed().Lift(194.6, tare: 0, rest: 4);
        Assert.Empty(Tares(scene));
        Assert.Empty(Looks(scene));
    }

    [Fact]
    public void A_fresh_towel_laid_on_the_old_one_and_tared_by_the_card_is_no_slip()
    {
        var scene = Weighed().Lift(194.6, rest: 4).Ramp(0.3, 8.2, 16.5).Hold(2, 16.5).Scan("!TARE").Hold(1, 16.5).Scan("GR-0096").Hold(1, 16.5).Chick(312, tare: 16.5);
        Assert.Equal(0m, Math.Round(TheTare(scene).ChangeGrams, 1));
        Assert.InRange(scene.Weighings[1].Grams!.Value, 311.4m, 312.6m);
    }

    [Fact]
    public void The_next_chick_that_comes_at_once_leaves_the_tare_after_unknown()
    {
        var scene = Weighed().Lift(194.6, rest: 1).Scan("GR-0096").Chick(312);
        Assert.Empty(Tares(scene));
        Assert.Empty(Looks(scene));
    }

    [Fact]
    public void A_scale_tared_by_its_own_key_after_the_lift_is_no_slip()
    {
        var scene = Weighed().Lift(194.6, rest: 1).Hold(4, 0).Scan("GR-0096").Hold(1, 0).Chick(312, tare: 0, seconds: 10);
        Assert.Empty(Tares(scene));
        Assert.Empty(Looks(scene));
        Assert.Equal(("accepted", 0m), (scene.Weighings[1].Verdict, Math.Round(scene.Weighings[1].TareGrams!.Value, 1)));
        Assert.InRange(scene.Weighings[1].Grams!.Value, 311.4m, 312.6m);

        // On the next chick's lift the towel at zero is compared with itself, and the towel's going is still seen.
        Assert.Equal(0m, Math.Round(TheTare(scene.Lift(312, tare: 0, rest: 4)).ChangeGrams, 1));
    }

    [Fact]
    public void A_lost_link_or_another_unit_leaves_the_tare_after_unknown()
    {
        Assert.Empty(Tares(Weighed().Link(LinkChange.Down).Wait(3).Link(LinkChange.Up).Hold(4, 194.6).Lift(194.6, tare: 9.4, rest: 4)));
        Assert.Empty(Tares(Weighed().Lift(194.6, rest: 1).Link(LinkChange.Down).Wait(3).Link(LinkChange.Up).Hold(4, 9.4)));
    }

    [Fact]
    public void A_slow_drift_over_an_hour_of_chicks_is_followed_and_taken_out()
    {
        // 6 g an hour: 0.0017 g a second, a sixtieth of what a zero may be followed with.
        var scene = new Scene();
        double Zero() => (scene.Now - Start).TotalSeconds * 6 / 3600;
        scene.Hold(2, 0).Ramp(0.4, 0, 8.2);
        Creep(10);
        (string Code, double Grams)[] chicks = [("AM-0147", 186.4), ("GR-0096", 312.2), ("CN-0321", 58.7)];
        for (var i = 0; i < 12; i++)
        {
            var (code, grams) = chicks[i % 3];
            if (i >= 3)
                scene.Scan("!REWEIGH").Hold(0.5, 8.2 + Zero());
            scene.Scan(code).Hold(0.5, 8.2 + Zero()).Chick(grams, tare: 8.2 + Zero(), seconds: 10, noise: 0.05);
            scene.Lift(8.2 + Zero() + grams, tare: 8.2 + Zero(), rest: 1);
            Creep(280);
        }

        Assert.Equal(12, scene.Weighings.Count(weighing => weighing.Verdict == "accepted"));
        Assert.All(scene.Weighings, weighing => Assert.InRange(Math.Abs((double)weighing.Grams!.Value - chicks.Single(chick => chick.Code == weighing.Chick).Grams), 0, 0.15));
        Assert.Equal(12, Tares(scene).Count());
        Assert.All(Tares(scene), tare => Assert.False(tare.Slip));
        Assert.Empty(Looks(scene));
        Assert.InRange(scene.Weighings[^1].TareGrams!.Value, 13.4m, 14.2m);

        void Creep(int seconds)
        {
            for (var i = 0; i < seconds; i++)
                scene.Hold(1, 8.2 + Zero());
        }
    }

    [Fact]
    public void A_drift_within_one_weighing_is_out_of_the_drift_free_weight()
    {
        // 0.02 g a second over the whole of it: half a gram from tare to tare, no slip for a chick of 312 g (0.94 g).
        var scene = Drifting(0.02, after: 6.4);
        var tare = TheTare(scene);
        var told = Math.Abs((double)scene.TheWeighing.Grams!.Value - 312.2);
        var free = Math.Abs((double)tare.DriftFreeGrams!.Value - 312.2);
        Assert.False(tare.Slip);
        Assert.InRange(told, 0.08, 0.3);
        Assert.InRange(free, 0, 0.06);
    }

    [Theory]
    [InlineData(0.02)]
    [InlineData(-0.02)]
    public void What_is_left_of_a_drift_is_rounding(double rate)
    {
        // So slow a drift shows the same value for seconds, so that nothing averages the rounding out but where within a division the zero begins.
        const double Division = 0.1;
        const int Phases = 10;
        var errors = Enumerable.Range(0, Phases).Select(phase => (double)TheTare(Drifting(rate, zero: Division * phase / Phases)).DriftFreeGrams!.Value - 312.2).ToList();

        // Half a division of the load, and as much of the tares, whose shares make one.
        Assert.All(errors, error => Assert.InRange(error, -Division, Division));

        // Three rounded values of d/√12 each (JCGM 100, F.2.2.1), the tares' shares at most 1 and 0: twice the standard error of the mean of so many.
        var deviation = Math.Sqrt(2 * Division * Division / 12);
        var most = 2 * deviation / Math.Sqrt(Phases);
        Assert.InRange(errors.Average(), -most, most);
    }

    [Fact]
    public void A_drift_is_taken_out_too_where_the_pan_came_to_rest_before_the_code()
    {
        var scene = new Scene().Towel().Hold(3, 8.2).Chick(186.4, 9).Lift(194.6, tare: 8.4, rest: 2.7).Scan("AM-0147").Hold(2, 8.4);
        var tare = TheTare(scene);
        Assert.Equal((false, 0.2m), (tare.Slip, Math.Round(tare.ChangeGrams, 1)));
        Assert.InRange(scene.TheWeighing.Grams!.Value - tare.DriftFreeGrams!.Value, 0, tare.ChangeGrams);
    }

    private static DateTimeOffset Start => new(2026, 3, 2, 5, 40, 0, TimeSpan.Zero);

    private static Scene Weighed(double tare = 8.2, double net = 186.4)
    {
        var scene = new Scene().Towel(tare).Scan("AM-0147").Hold(1, tare).Chick(net, tare: tare);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        return scene;
    }

    // A chick of 312.2 g on a towel of 8.2 g, and a zero that creeps from those seconds on.
    private static Scene Drifting(double rate, double after = 0, double zero = 0)
    {
        var scene = new Scene();
        double Zero() => zero + Math.Max(0, (scene.Now - Start).TotalSeconds - after) * rate;
        scene.Hold(2, 0).Ramp(0.4, 0, 8.2 + Zero());
        Creep(4, 8.2);
        scene.Scan("GR-0096").Ramp(0.6, 8.2 + Zero(), 320.4 + Zero());
        Creep(11, 320.4);
        scene.Ramp(0.4, 320.4 + Zero(), 8.2 + Zero());
        Creep(6, 8.2);
        return scene;

        void Creep(double seconds, double grams)
        {
            for (var i = 0; i < 10 * seconds; i++)
                scene.Hold(0.1, grams + Zero());
        }
    }

    private static IEnumerable<TareAfterEvent> Tares(Scene scene) => scene.Events.OfType<TareAfterEvent>();

    private static TareAfterEvent TheTare(Scene scene) => Assert.Single(Tares(scene));

    private static IEnumerable<AlertEvent> Looks(Scene scene) => scene.Events.OfType<AlertEvent>().Where(alert => alert.Alert == "look");
}
