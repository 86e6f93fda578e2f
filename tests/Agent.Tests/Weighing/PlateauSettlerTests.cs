using CaptureAgent.Agent.Tests.Support;
using CaptureAgent.Agent.Weighing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Weighing;

/// <summary>The settler on its own: readings less tare in, a weight with its standard error out.</summary>
public sealed class PlateauSettlerTests
{
    private const double Interval = 0.1;

    [Theory]
    [InlineData(0.0)]
    [InlineData(0.5)]
    public void The_standard_error_counts_the_correlation_of_the_noise(double phi)
    {
        // AR(1): the mean of n readings has the error sigma/sqrt(n) * sqrt((1+phi)/(1-phi)) (Bayley and Hammersley 1946, effective sample size).
        int within = 0, settled = 0;
        var squares = 0.0;
        for (var seed = 0; seed < 400; seed++)
        {
            var settler = Started(0.01);
            var random = new Random(seed);
            double noise = 0, seconds = 0;
            for (var i = 0; i < 300 && settler.State != SettleState.Settled; i++)
            {
                noise = phi * noise + Math.Sqrt(1 - phi * phi) * 0.3 * random.NextNormal();
                settler.Add(seconds += Interval, 100 + noise);
            }

            if (settler.State != SettleState.Settled)
                continue;
            settled++;
            var z = (settler.Grams - 100) / settler.StandardError;
            squares += z * z;
            within += Math.Abs(z) < 2 ? 1 : 0;
        }

        Assert.InRange(settled, 300, 400);
        Assert.InRange((double)within / settled, 0.84, 1);
        Assert.InRange(Math.Sqrt(squares / settled), 0.5, 1.4);
    }

    [Fact]
    public void A_restless_chick_is_weighed_once_its_means_agree_though_its_momentum_strays()
    {
        // Three strides of 0.5 to 0.7 Hz: the momentum strays by 0.9 g s all the while, and each mean over a cycle is the weight.
        var settler = Started(0.1);
        settler.Expect(77);
        double seconds = 0;
        while (seconds < 15 && settler.State != SettleState.Settled)
        {
            seconds += Interval;
            settler.Add(seconds, 76 + 2.2 * (Math.Sin(2 * Math.PI * 0.52 * seconds) + Math.Sin(2 * Math.PI * 0.61 * seconds + 1) + Math.Sin(2 * Math.PI * 0.69 * seconds + 2)));
        }

        Assert.Equal(SettleState.Settled, settler.State);
        Assert.InRange(settler.Grams, 75.77, 76.23);
    }

    [Fact]
    public void It_waits_until_a_hand_has_had_its_time()
    {
        var settler = Started(0.1);
        double seconds = 0;
        SettleState[] states = [.. Enumerable.Range(0, 80).Select(_ =>
        {
            settler.Add(seconds += Interval, 186.4);
            return settler.State;
        })];
        Assert.All(states[..52], state => Assert.NotEqual(SettleState.Settled, state));
        Assert.Contains(SettleState.Contact, states);
        Assert.Equal(SettleState.Settled, states[^1]);
    }

    [Fact]
    public void What_no_hand_holds_back_any_more_is_told_as_motion()
    {
        // Plain noise 3 % below what is expected: once the rules have excluded a hand, the chance of a wrong record still asks for more.
        var settler = Started(0.1);
        settler.Expect(192);
        var random = new Random(1);
        List<SettleState> states = [];
        while (states.Count < 300 && settler.State != SettleState.Settled)
        {
            settler.Add(states.Count * Interval, 186.4 + 0.3 * random.NextNormal());
            states.Add(settler.State);
        }

        Assert.Equal(SettleState.Settled, states[^1]);
        Assert.Contains(SettleState.Contact, states);
        Assert.Contains(SettleState.Moving, states[states.LastIndexOf(SettleState.Contact)..]);
    }

    [Fact]
    public void A_step_starts_the_weight_anew()
    {
        var settler = Started(0.1);
        double seconds = 0;
        for (var i = 0; i < 40; i++)
            settler.Add(seconds += Interval, 112);
        for (var i = 0; i < 40; i++)
            settler.Add(seconds += Interval, 186.4);
        Assert.True(settler.Stepped);
        Assert.Equal(186.4, settler.Grams, 0.05);
        Assert.Equal(112, settler.LowPlateau.Grams, 0.1);
    }

    [Fact]
    public void After_a_gap_a_hand_must_be_excluded_again()
    {
        var settler = Started(0.1);
        double seconds = 0;
        for (var i = 0; i < 90; i++)
            settler.Add(seconds += Interval, 186.4);
        Assert.Equal(SettleState.Settled, settler.State);
        settler.Gap();
        for (var i = 0; i < 50; i++)
            settler.Add(seconds += Interval, 186.4);
        Assert.NotEqual(SettleState.Settled, settler.State);
    }

    [Theory]
    [InlineData(0.92)]
    [InlineData(0.97)]
    public void A_restless_chick_that_lost_weight_is_weighed_while_it_lies_there(double share)
    {
        var settler = Started(0.1);
        settler.Expect(186.4 / share);
        double seconds = 0;
        while (seconds < 30 && settler.State != SettleState.Settled)
        {
            seconds += Interval;
            var rising = Math.Min(1, seconds / 0.4);
            settler.Add(seconds, rising * (186.4 + 3 * Math.Sin(2 * Math.PI * 0.8 * seconds) + 3 * Math.Sin(2 * Math.PI * 2.3 * seconds + 1)));
        }

        Assert.InRange(seconds, 6, 25);
        Assert.Equal(186.4, settler.Grams, 0.5);
    }

    [Theory]
    [InlineData(3.8)]
    [InlineData(4.4)]
    public void A_hand_that_comes_to_rest_within_the_filter_s_tail_is_a_level_of_its_own(double stay)
    {
        // Behind a stage of 0.5 s a free stay is hardly over its tail when a hand presses 2 % more, still, at what the chick should weigh.
        var settler = new PlateauSettler();
        settler.Begin(new SettleContext(0, 0.1, 0.03, 0.03, 1.18));
        settler.Expect(174.7);
        double shown = 0;
        var settled = false;
        for (var i = 1; i < 90; i++)
        {
            var seconds = i * Interval;
            var force = seconds < 0.7 ? 100 : seconds < stay ? 171.6 : 175.3;
            shown += (force - shown) * (1 - Math.Exp(-Interval / 0.5));
            settler.Add(seconds, Math.Round(10 * (shown + 0.2 * Math.Sin(11 * seconds))) / 10);
            settled |= settler.State == SettleState.Settled && Math.Abs(settler.Grams - 171.6) > 1;
        }

        Assert.False(settled);
    }

    [Fact]
    public void Adding_a_reading_allocates_nothing()
    {
        var settler = Started(0.1);
        double seconds = 0;
        // Every path once: what the runtime makes for itself on first use does not count.
        for (var i = 0; i < 5000; i++)
            settler.Add(seconds += Interval, 186.4 + i % 3 * 0.1);
        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var i = 0; i < 5000; i++)
            settler.Add(seconds += Interval, 186.4 + i % 3 * 0.1);
        Assert.Equal(before, GC.GetAllocatedBytesForCurrentThread());
    }

    private static PlateauSettler Started(double division)
    {
        var settler = new PlateauSettler();
        settler.Begin(new SettleContext(0, division, 0.01, 0));
        return settler;
    }
}
