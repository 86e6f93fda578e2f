using CaptureAgent.Agent.Tests.Support;
using CaptureAgent.Agent.Weighing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Weighing;

/// <summary>A free animal against a force of its own, by the shape of the motion and by what the chick should weigh.</summary>
public sealed class AnimalEvidenceTests
{
    private const double Grams = 170;
    private const double Division = 0.1;

    [Theory]
    [InlineData(170)]
    [InlineData(182)]
    [InlineData(189)]
    public void A_restless_chick_is_believed_though_it_weighs_less_than_it_should(double expected)
    {
        var believed = Runs(expected, (random, phase) => t => Strides(phase, t) + 0.2 * random.NextNormal());
        Assert.InRange(believed, 45, 50);
    }

    [Theory]
    [InlineData(182)]
    [InlineData(210)]
    public void A_hand_s_wander_on_a_calm_chick_is_not_believed_off_the_expected_weight(double expected)
    {
        var believed = Runs(expected, (random, phase) => Wander(random, phase, 0.1));
        Assert.InRange(believed, 0, 3);
    }

    [Fact]
    public void A_wander_among_strides_is_oftener_doubted_than_believed_late_even_at_the_expected_weight()
    {
        var believed = Runs(Grams, (random, phase) => Wander(random, phase, 0.4));
        Assert.InRange(believed, 0, 22);
    }

    [Fact]
    public void Nothing_is_believed_at_once()
    {
        var evidence = Evidence(14, Grams, t => 3 * Math.Sin(2 * Math.PI * 1.3 * t));
        Assert.False(evidence.IsAnimal(Grams, Grams, Division, 1.3));
    }

    [Fact]
    public void What_hardly_moves_is_believed_soon_where_it_weighs_what_it_should_and_later_where_not()
    {
        var evidence = Evidence(16, Grams, _ => 0);
        Assert.True(evidence.IsAnimal(Grams, Grams, Division, 1.5));
        Assert.False(evidence.IsAnimal(Grams, 1.1 * Grams, Division, 1.5));
        Assert.False(evidence.IsAnimal(Grams, double.NaN, Division, 1.5));
    }

    // Fourteen seconds at ten readings a second, fifty times.
    private static int Runs(double expected, Func<Random, double, Func<double, double>> force)
    {
        var believed = 0;
        for (var run = 0; run < 50; run++)
        {
            var random = new Random(run);
            var off = force(random, 6 * random.NextDouble());
            believed += Evidence(140, expected, off).IsAnimal(Grams, expected, Division, 14) ? 1 : 0;
        }

        return believed;
    }

    private static AnimalEvidence Evidence(int count, double expected, Func<double, double> off)
    {
        var series = new ImpulseSeries();
        for (var i = 0; i < count; i++)
            series.Add(i * 0.1, Grams + off(i * 0.1), resumed: false);
        return AnimalEvidence.Of(series, 0, Grams, expected, 0.1 * Grams, Division);
    }

    // Ornstein–Uhlenbeck, a memory of a second, 0.4 % of the weight, and a share of the strides.
    private static Func<double, double> Wander(Random random, double phase, double strides)
    {
        var x = 0.7 * random.NextNormal();
        return t => (x = Math.Exp(-0.1) * x + Math.Sqrt(1 - Math.Exp(-0.2)) * 0.7 * random.NextNormal()) + strides * Strides(phase, t);
    }

    // 4 % of the weight in all, the slowest of 0.75 Hz.
    private static double Strides(double phase, double t) =>
        2.5 * Math.Sin(2 * Math.PI * 0.75 * t + phase) + 2.5 * Math.Sin(2 * Math.PI * 1.7 * t + 2 * phase) + 2.5 * Math.Sin(2 * Math.PI * 3.1 * t + 3 * phase);
}
