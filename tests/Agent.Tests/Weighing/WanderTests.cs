using CaptureAgent.Agent.Weighing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Weighing;

/// <summary>An animal's motion averages out; a draught's, or a touching towel's, does not.</summary>
public sealed class WanderTests
{
    [Theory]
    [InlineData(0.8)]
    [InlineData(1.5)]
    public void A_bobbing_chick_is_not_foreign(double hertz)
    {
        var series = Series(100, i => 186 + 3 * Math.Sin(2 * Math.PI * hertz * i * 0.1));
        Assert.InRange(Wander.Foreign(series.Line(0, series.Count, 0), 2.1, 0.56), 0.01, 0.95);
        Assert.InRange(Wander.Error(series, 0, 186, 0), 0, 0.02);
    }

    [Fact]
    public void A_force_that_forgets_itself_in_a_second_is_foreign()
    {
        // First-order autoregressive, phi = exp(-0.1/1.0); the variance of its mean over T is about 2·sigma²/T (Bayley and Hammersley 1946, effective sample size; from memory).
        var random = new Random(7);
        var phi = Math.Exp(-0.1);
        int foreign = 0, covered = 0;
        for (var run = 0; run < 100; run++)
        {
            double x = Gauss(random), sum = 0;
            var series = Series(120, _ =>
            {
                x = phi * x + Math.Sqrt(1 - phi * phi) * Gauss(random);
                sum += x;
                return 186 + 3 * x;
            });
            foreign += Wander.Foreign(series.Line(0, series.Count, 0), 3, 0.56) > 1 ? 1 : 0;
            covered += 3 * Math.Abs(sum / 120) < 3 * Wander.Error(series, 0, 186 + 3 * sum / 120, 0) ? 1 : 0;
        }

        Assert.InRange(foreign, 70, 100);
        Assert.InRange(covered, 70, 100);
    }

    [Fact]
    public void Stillness_is_nobody_s_motion() =>
        Assert.Equal(0, Wander.Foreign(Series(60, _ => 186).Line(0, 60, 0), 0, 0.56));

    private static ImpulseSeries Series(int count, Func<int, double> grams)
    {
        var series = new ImpulseSeries();
        for (var i = 0; i < count; i++)
            series.Add(i * 0.1, grams(i), resumed: false);
        return series;
    }

    private static double Gauss(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
