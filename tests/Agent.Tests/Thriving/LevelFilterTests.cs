using CaptureAgent.Agent.Thriving;
using Xunit;

namespace CaptureAgent.Agent.Tests.Thriving;

/// <summary>The filter against R 4.2.2 (2022-11-10 r83330), stats::KalmanRun and stats::KalmanLike.</summary>
/// <remarks>
/// Along a straight curve of 5 % a day: state (ln weight, rate, noise), T = [1 1 0; 0 0.95 0; 0 0 0.4],
/// Z = (1, 0, 1), h = 0.003², V = [j² + w/3, w/2, 0; w/2, w, 0; 0, 0, s²(1 - 0.4²)] with j = 0.0008, w = 0.004², s = 0.02; P of the first weight
/// [s² + h, 0, -s²; 0, w, 0; -s², 0, s²], Pn = T P T' + V. Called as KalmanRun(z[-1], mod, nit = 0L) on z = ln(weight) - ln(50) - 0.05 day.
/// </remarks>
public sealed class LevelFilterTests
{
    private static readonly double[] Weights = [50.0, 52.1, 55.9, 57.4, 60.8, double.NaN, 66.1, 70.3, 72.0, 77.9];

    private static readonly double[] StandardisedResiduals =
        [-0.388461442521, 0.811770200443, -0.864530111318, 0.180141409567, double.NaN, -0.511220746776, 0.459660040332, -0.973012483780, 1.152911303314];

    private static readonly Tuning Tuning =
        new(RateFloor: 0.004, RateShare: 0, Lasting: 0.95, LevelJump: 0.0008, AheadSpread: 0, PaceSpread: 0, SizeSpread: 0, HatchlingJump: 0);

    [Fact]
    public void Residuals_are_those_of_the_reference_implementation()
    {
        var residuals = Run();
        for (var i = 0; i < residuals.Count; i++)
            Assert.Equal(StandardisedResiduals[i], residuals[i].Standardised, 1e-9);
    }

    [Fact]
    public void The_likelihood_is_that_of_the_reference_implementation()
    {
        var known = Run().Where(each => !double.IsNaN(each.Standardised)).ToList();
        Assert.Equal(0.542291020373, known.Average(each => each.Standardised * each.Standardised), 1e-9);
        // KalmanLike gives 0.5 (ln of the mean square residual + mean of ln F), the scale concentrated out.
        var meanSquare = known.Average(each => each.Standardised * each.Standardised);
        Assert.Equal(-4.03159160424, 0.5 * (Math.Log(meanSquare) + known.Average(each => Math.Log(each.Variance))), 1e-9);
    }

    [Fact]
    public void A_missing_day_widens_the_forecast()
    {
        var filter = Start();
        filter.Pass(0.05, Tuning.LevelJump, NoiseLevel.Usual, Tuning);
        var one = filter.Variance;
        filter.Pass(0.05, Tuning.LevelJump, NoiseLevel.Usual, Tuning);
        Assert.True(filter.Variance > one);
    }

    private static LevelFilter Start() => new(0.003 * 0.003, 0.004 * 0.004, NoiseLevel.Usual);

    private static List<(double Standardised, double Variance)> Run()
    {
        var filter = Start();
        var (level, rate, noise) = (Math.Log(Weights[0]), 0.0, 0.0);
        List<(double, double)> residuals = [];
        foreach (var grams in Weights.Skip(1))
        {
            filter.Pass(0.05, Tuning.LevelJump, NoiseLevel.Usual, Tuning);
            (level, rate, noise) = (level + 0.05 + rate, Tuning.Lasting * rate, NoiseLevel.Usual.Correlation * noise);
            var variance = filter.Variance + 0.003 * 0.003;
            var innovation = Math.Log(grams) - level - noise;
            residuals.Add((innovation / Math.Sqrt(variance), variance));
            if (double.IsNaN(grams))
                continue;
            filter.Update(variance);
            (level, rate, noise) = (level + filter.Level * innovation, rate + filter.Rate * innovation, noise + filter.Noise * innovation);
        }

        return residuals;
    }
}
