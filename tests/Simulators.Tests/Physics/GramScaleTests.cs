using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Physics.Scales;
using Xunit;

namespace CaptureAgent.Simulators.Tests.Physics;

public sealed class GramScaleTests
{
    private static readonly ScaleSpecification Quiet = new() { NoiseGrams = 0 };

    [Fact]
    public void One_stage_answers_a_step_as_the_exponential_says()
    {
        var filter = new LowPass(0.25, 1);
        for (var t = SimulatedTime.StepSeconds; t < 2; t += SimulatedTime.StepSeconds)
            Assert.Equal(100 * (1 - Math.Exp(-t / 0.25)), filter.Step(100), 9);
    }

    [Fact]
    public void Two_stages_answer_a_step_as_theory_says()
    {
        var filter = new LowPass(0.25, 2);
        for (var t = SimulatedTime.StepSeconds; t < 2; t += SimulatedTime.StepSeconds)
            Assert.Equal(100 * (1 - ((1 + (t / 0.25)) * Math.Exp(-t / 0.25))), filter.Step(100), 0.05);
    }

    [Theory]
    [InlineData("0.1", 123.46, "123.5")]
    [InlineData("0.5", 123.46, "123.5")]
    [InlineData("1", 123.46, "123")]
    [InlineData("2", 123.46, "124")]
    public void Shown_value_is_the_nearest_division(string division, double grams, string shown)
    {
        var scale = new GramScale(Quiet with { DivisionGrams = decimal.Parse(division, System.Globalization.CultureInfo.InvariantCulture) }, 1);
        Assert.Equal(shown, Settled(scale, grams).Value.ToString(System.Globalization.CultureInfo.InvariantCulture));
    }

    [Fact]
    public void Readings_come_at_their_rate_whatever_the_jitter()
    {
        foreach (var hertz in (double[])[2, 7, 10, 50])
        {
            var samples = Run(new(Quiet with { SampleHertz = hertz, JitterSeconds = 0.3 / hertz }, 2), 0, 60, _ => 10);
            Assert.InRange(samples.Count, (60 * hertz) - 2, (60 * hertz) + 2);
            var gaps = samples.Zip(samples.Skip(1), (first, second) => (second.Seconds - first.Seconds) * hertz).ToList();
            Assert.InRange(gaps.Min(), 1e-6, 0.7);
            Assert.InRange(gaps.Max(), 1.3, 2);
        }
    }

    [Fact]
    public void Honest_flag_is_stable_only_after_the_value_has_stayed()
    {
        var scale = new GramScale(Quiet with { FlagSeconds = 1, FilterSeconds = 0.05 }, 3);
        var samples = Run(scale, 0, 4, t => t < 2 ? 100 * t : 200);

        Assert.All(samples.Where(sample => sample.Seconds is > 0.3 and < 2.9), sample => Assert.False(sample.Stable));
        Assert.All(samples.Where(sample => sample.Seconds > 3.5), sample => Assert.True(sample.Stable));
    }

    [Fact]
    public void Honest_flag_believes_a_still_hand()
    {
        var sample = Settled(new(Quiet, 4), 120);
        Assert.True(sample.Stable);
    }

    [Theory]
    [InlineData(FlagConduct.StuckAtStable, true)]
    [InlineData(FlagConduct.StuckAtUnstable, false)]
    [InlineData(FlagConduct.Absent, null)]
    public void Flag_that_is_stuck_or_absent_says_so_whatever_happens(FlagConduct conduct, bool? expected)
    {
        var samples = Run(new(Quiet with { Flag = conduct }, 5), 0, 10, t => t < 5 ? 50 * Math.Sin(t * 3) : 100);
        Assert.All(samples, sample => Assert.Equal(expected, sample.Stable));
    }

    [Fact]
    public void Own_tare_key_shows_net_and_a_negative_value_when_the_towel_goes()
    {
        var scale = new GramScale(Quiet, 6);
        Settled(scale, 8.2);
        scale.PressTare();
        Assert.Equal((0.0m, true), Value(Run(scale, 10, 12, _ => 8.2)[^1]));
        Assert.Equal((-8.2m, true), Value(Run(scale, 12, 16, _ => 0)[^1]));
    }

    [Fact]
    public void After_a_power_cut_the_load_on_the_pan_is_its_zero()
    {
        var scale = new GramScale(Quiet, 7);
        Settled(scale, 100);
        scale.CutPower(10, 1);
        var samples = Run(scale, 10, 16, _ => 100);

        Assert.True(samples[0].Seconds >= 13);
        Assert.Equal((0.0m, false), Value(samples[^1]));
        Assert.Equal(-100.0m, Run(scale, 16, 20, _ => 0)[^1].Value);
    }

    [Fact]
    public void Beyond_capacity_and_far_below_zero_there_is_no_value()
    {
        Assert.Equal(ShownRange.Over, Settled(new(Quiet with { CapacityGrams = 500 }, 8), 502).Range);
        Assert.Equal(ShownRange.Within, Settled(new(Quiet with { CapacityGrams = 500 }, 8), 500.5).Range);
        Assert.Equal(ShownRange.Under, Settled(new(Quiet with { CapacityGrams = 500 }, 8), -120).Range);
    }

    [Fact]
    public void Other_units_show_the_same_mass_in_their_own_divisions()
    {
        var scale = new GramScale(Quiet, 9);
        scale.SwitchUnit(DisplayUnit.Ounce);
        Assert.Equal(7.054m, Settled(scale, 200).Value);
        scale.SwitchUnit(DisplayUnit.Kilogram);
        Assert.Equal(0.2000m, Run(scale, 10, 11, _ => 200)[^1].Value);
    }

    [Fact]
    public void Drift_gain_and_warm_up_shift_what_is_shown()
    {
        Assert.Equal(1002.0m, Settled(new(Quiet with { GainError = 0.002 }, 10), 1000).Value);
        Assert.Equal(3.0m, Run(new(Quiet with { DriftGramsPerMinute = 3 }, 11), 0, 60.1, _ => 0)[^1].Value, 1);
        Assert.Equal(-4.0m, Run(new(Quiet with { WarmUpGrams = 4, WarmUpSeconds = 10 }, 12), 0, 80, _ => 0)[^1].Value);
    }

    [Fact]
    public void Zero_tracking_eats_a_slow_drift_but_not_a_chick()
    {
        var drifting = Quiet with { DriftGramsPerMinute = 0.6, TracksZero = true };
        Assert.Equal(0.0m, Run(new(drifting, 13), 0, 120, _ => 0)[^1].Value);
        var scale = new GramScale(Quiet with { TracksZero = true }, 13);
        Run(scale, 0, 10, _ => 0);
        Assert.Equal(5.0m, Run(scale, 10, 60, _ => 5)[^1].Value);
    }

    private static (decimal Value, bool IsNet) Value(ScaleSample sample) => (sample.Value, sample.IsNet);

    private static ScaleSample Settled(GramScale scale, double grams) => Run(scale, 0, 10, _ => grams)[^1];

    private static List<ScaleSample> Run(GramScale scale, double from, double to, Func<double, double> force)
    {
        List<ScaleSample> samples = [];
        for (var step = (int)Math.Round(from / SimulatedTime.StepSeconds); step * SimulatedTime.StepSeconds < to; step++)
        {
            var now = step * SimulatedTime.StepSeconds;
            if (scale.Step(now, force(now), out var sample))
                samples.Add(sample);
        }

        return samples;
    }
}
