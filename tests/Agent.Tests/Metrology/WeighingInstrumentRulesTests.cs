using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Tests.Round;
using CaptureAgent.Agent.Weighing;
using CaptureAgent.Protocol.Scales;
using Xunit;

namespace CaptureAgent.Agent.Tests.Metrology;

/// <summary>
/// Rules of OIML R 76-1:2006, "Non-automatic weighing instruments", as far as they concern what stores a weight. Clause numbers and figures from memory; 4.2.3, 4.4.2, 4.5.2, 4.5.6, 4.5.7,
/// A.4.12 and 5.3.5 also as public test programs for type evaluation cite them. The instrument's verification interval e is its division d here (0.1 g).
/// </summary>
/// <remarks>R 76 has no rule for a load that never lies still: a weight of a moving chick is an average with its own uncertainty, and no stable equilibrium is claimed for it.</remarks>
public sealed class WeighingInstrumentRulesTests
{
    private const decimal E = 0.1m;

    // 4.4.2 and A.4.12: what is stored of a load at rest is one of the two neighbouring values that are shown for five seconds after it. Five repetitions, the load disturbed before.
    [Theory]
    [InlineData(0.0)]
    [InlineData(0.02)]
    [InlineData(0.04)]
    [InlineData(0.06)]
    [InlineData(0.08)]
    public void Clause_4_4_2_what_is_stored_of_a_still_load_is_what_is_shown_for_five_seconds_after_it(double fraction)
    {
        var scene = new Scene(options => options.Devices[0].CheckMassGrams = 1500).Hold(3, 0).Scan("!CHECK").Hold(1, 0);
        var mass = 1500 + fraction;
        scene.Ramp(0.4, 0, mass + 40);
        for (var i = 0; i < 20; i++)
            scene.Hold(0.1, mass + 40 * Math.Exp(-i / 3.0) * Math.Cos(i));
        scene.Hold(12, mass);
        var check = Assert.Single(scene.Events.OfType<CheckEvent>());
        Assert.True(scene.Now - check.At >= TimeSpan.FromSeconds(5), "five seconds were watched");
        var shown = Math.Round((decimal)mass, 1);
        Assert.InRange(check.Grams, shown - E, shown + E);
    }

    // 4.4.2, 4.4.5: during continuous or temporary disturbance nothing is stored, zeroed or tared.
    [Theory]
    [InlineData(1.0, 0.7)]
    [InlineData(0.5, 1.1)]
    [InlineData(8.0, 2.3)]
    public void Clause_4_4_5_a_disturbed_pan_is_neither_tared_nor_checked(double grams, double hertz)
    {
        var scene = new Scene(options => options.Devices[0].CheckMassGrams = 200).Hold(3, 0).Scan("!CHECK").Ramp(0.3, 0, 200);
        for (var i = 0; i < 300; i++)
            scene.Hold(0.1, 200 + 10 * grams * Math.Sin(2 * Math.PI * hertz * i * 0.1) + 3 * Math.Sin(i * 0.021));
        Assert.Empty(scene.Events.OfType<CheckEvent>());

        var liner = new Scene().Hold(2, 0).Ramp(0.3, 0, 8.2);
        for (var i = 0; i < 35; i++)
            liner.Hold(0.1, 8.2 + grams * Math.Sin(2 * Math.PI * hertz * i * 0.1));
        Assert.Empty(liner.Events.OfType<TareEvent>());
    }

    // 4.5.7: only in stable equilibrium, and by 0.5 d a second at most.
    [Theory]
    [InlineData(0.1, true)]
    [InlineData(0.4, true)]
    [InlineData(2.0, false)]
    [InlineData(5.0, false)]
    public void Clause_4_5_7_a_zero_is_tracked_by_half_a_division_a_second_at_most(double divisionsPerSecond, bool follows)
    {
        var pan = At(8.2, out var seconds);
        var before = pan.Rest!.Grams;
        double last = before, fastest = 0;
        var start = seconds;
        for (var i = 1; i <= 40 && pan.Rest is not null; i++)
        {
            seconds = start + i * 0.1;
            pan.Add(Sample(seconds, 8.2 + divisionsPerSecond * 0.1 * i * 0.1));
            if (pan.Rest is not { } rest)
                break;
            fastest = Math.Max(fastest, Math.Abs(rest.Grams - last) / 0.1);
            last = rest.Grams;
        }

        // A new equilibrium sets a tare anew, which is no tracking: readings that step by one division come to rest on both sides of the step.
        if (follows)
            Assert.InRange(last - before, divisionsPerSecond * 0.1 * 4 - 0.15, divisionsPerSecond * 0.1 * 4 + 0.05);
        else
            Assert.InRange(fastest, 0, 0.5 * 0.1 + 1e-9);
    }

    [Theory]
    [InlineData(0.1)]
    [InlineData(1.0)]
    public void Clause_4_5_7_the_rate_itself(double division)
    {
        var tracking = new ZeroTracking();
        tracking.Begin(0);
        Assert.Equal(5, tracking.Follow(0, 5, 0.1, division, inEquilibrium: false));
        Assert.False(tracking.Established);
        Assert.Equal(5, tracking.Follow(5, 5, 2, division, inEquilibrium: true));
        Assert.True(tracking.Established);
        Assert.Equal(5 + 0.5 * division, tracking.Follow(5, 9, 3, division, inEquilibrium: false), 12);
        Assert.Equal(5 - 0.25 * division, tracking.Follow(5, 1, 3.5, division, inEquilibrium: false), 12);
        Assert.Equal(5.01 * division, tracking.Follow(5 * division, 5.01 * division, 4, division, inEquilibrium: false), 12);
        Assert.Equal(9, tracking.Follow(5, 9, 4.1, division, inEquilibrium: true));
        tracking.Begin(5);
        Assert.False(tracking.Established);
    }

    // 4.5.7: never under a load: the tare of a placing is the one from before it.
    [Fact]
    public void Clause_4_5_7_nothing_is_tracked_under_a_load()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Hold(1, 8.2).Ramp(0.5, 8.2, 194.6);
        for (var i = 0; i < 200; i++)
            scene.Hold(0.1, 194.6 + i * 0.0005);
        Assert.Equal(8.2m, Math.Round(scene.TheWeighing.TareGrams!.Value, 1));
        Assert.Single(scene.Events.OfType<TareEvent>());
    }

    // 4.5.2, 4.6.3: zero and tare are set to within a quarter of an interval. What is read here is rounded to d already, so that half of it is the best there is; the uncertainty owns up to it.
    [Fact]
    public void Clause_4_6_3_a_tare_is_off_by_half_a_division_at_most_and_the_uncertainty_says_so()
    {
        for (var i = 0; i < 20; i++)
        {
            var liner = 8.1 + i * 0.01;
            var rest = At(liner, out _).Rest!;
            Assert.InRange(rest.Grams, liner - 0.05 - 1e-9, liner + 0.05 + 1e-9);

            // JCGM 100 F.2.2.1: d/sqrt(12) for it.
            Assert.True(rest.Uncertainty >= 0.1 / Math.Sqrt(12) - 1e-9);
        }
    }

    // 4.6: a net weight is shown as one: every weight that is stored names its tare.
    [Fact]
    public void Clause_4_6_a_stored_net_weight_names_its_tare()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Hold(1, 8.2).Chick(186.4).Lift(194.6, rest: 3).Hold(8, 0).Scan("GR-0096").Hold(1, 0).Chick(312, tare: 0, seconds: 12);
        Assert.Equal([8.2m, 0m], scene.Weighings.Where(weighing => weighing.Verdict == "accepted").Select(weighing => Math.Round(weighing.TareGrams!.Value, 1)));
    }

    // 4.2.3: nothing is indicated above Max + 9 e.
    [Theory]
    [InlineData(200.9, "accepted")]
    [InlineData(201.0, "overload")]
    [InlineData(240.0, "overload")]
    public void Clause_4_2_3_above_the_maximum_and_nine_intervals_there_is_no_weight(double gross, string becomes)
    {
        var ledger = Scene.Nursery(("LB-0008", "2026-03-01", (decimal)(gross - 8.2)));
        var scene = new Scene(options => options.Devices[0].CapacityGrams = 200, ledger).Towel().Scan("LB-0008").Hold(1, 8.2).Ramp(0.5, 8.2, gross).Hold(20, gross, 0.02);
        var weighing = scene.TheWeighing;
        Assert.Equal(becomes, weighing.Verdict == "accepted" ? "accepted" : Assert.Single(weighing.Reasons));
    }

    // 3.9.4: zero returns to within half an interval after a load near the maximum; with the rounding of both readings that is no slip of the liner.
    [Theory]
    [InlineData(0.05)]
    [InlineData(-0.05)]
    public void Clause_3_9_4_a_zero_that_returns_as_it_must_is_no_slip(double back)
    {
        for (var i = 0; i < 10; i++)
        {
            var liner = 8.1 + i * 0.02;
            var scene = new Scene(ledger: Scene.Nursery(("LB-0008", "2026-03-01", 23.4m))).Towel(liner).Scan("LB-0008").Hold(1, liner)
                .Chick(24.6, tare: liner, noise: 0.05).Lift(liner + 24.6, tare: liner + back, rest: 4);
            Assert.False(Assert.Single(scene.Events.OfType<TareAfterEvent>()).Slip);
        }
    }

    private static Pan At(double liner, out double seconds)
    {
        var pan = new Pan(() => new PlateauSettler()) { Division = 0.1 };
        seconds = 0;
        for (var i = 0; i < 30; i++)
            pan.Add(Sample(seconds = i * 0.1, 0));
        for (var i = 30; i < 100; i++)
            pan.Add(Sample(seconds = i * 0.1, liner));
        Assert.True(pan.TareIsEstablished);
        return pan;
    }

    private static PanSample Sample(double seconds, double grams) =>
        new(seconds, Math.Round((decimal)grams, 1), LoadRange.Within, Stability.Unknown, WeightMark.Unknown);
}
