using CaptureAgent.Agent.Feeding.Batches;
using Xunit;

namespace CaptureAgent.Agent.Tests.Feeding.Batches;

/// <summary>The exponential fit against certified results and textbooks.</summary>
public sealed class ExponentialApproachTests
{
    // NIST StRD, nonlinear regression, Misra1a (Misra 1978, dental research): y = b1 (1 - exp(-b2 x)); data and certified values, U.S. public domain.
    private static readonly double[] MisraY = [10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78];
    private static readonly double[] MisraX = [77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0];

    // NIST StRD, nonlinear regression, BoxBOD (Box, Hunter and Hunter 1978, biochemical oxygen demand): the same model, "higher difficulty".
    private static readonly double[] BoxY = [109, 149, 149, 191, 213, 224];
    private static readonly double[] BoxX = [1, 2, 3, 5, 7, 10];

    [Fact]
    public void Misra1a_has_its_certified_parameters()
    {
        var fit = ExponentialApproach.Fit(MisraX, MisraY, 1, Known.Exactly(0), Known.Nothing, Known.Nothing);
        Close(2.3894212918E+02, fit.Asymptote);
        Close(5.5015643181E-04, fit.Rate);
        Close(1.2455138894E-01, fit.SumOfSquares);
        var residual = Math.Sqrt(fit.SumOfSquares / 12);
        Close(2.7070075241E+00, Math.Sqrt(fit.Covariance[1, 1]) * residual, 1e-5);
        Close(7.2668688436E-06, Math.Sqrt(fit.Covariance[2, 2]) * residual * fit.Rate, 1e-5);
    }

    [Fact]
    public void BoxBOD_has_its_certified_parameters()
    {
        var fit = ExponentialApproach.Fit(BoxX, BoxY, 1, Known.Exactly(0), Known.Nothing, Known.Nothing);
        Close(2.1380940889E+02, fit.Asymptote);
        Close(5.4723748542E-01, fit.Rate);
        Close(1.1680088766E+03, fit.SumOfSquares);
        var residual = Math.Sqrt(fit.SumOfSquares / 4);
        Close(1.2354515176E+01, Math.Sqrt(fit.Covariance[1, 1]) * residual, 1e-5);
        Close(1.0455993237E-01, Math.Sqrt(fit.Covariance[2, 2]) * residual * fit.Rate, 1e-5);
    }

    [Fact]
    public void Coffee_cools_as_in_the_textbook()
    {
        // OpenStax, Calculus Volume 1, 6.8, Newton's law of cooling (from memory): 200 °F, 180 °F after two minutes, room 70 °F;
        // 175 °F after about 2.5 minutes, 155 °F after about 5.
        var fit = ExponentialApproach.Fit([0, 2], [200, 180], 0.01, Known.Nothing, Known.Exactly(70), Known.Nothing);
        Assert.Equal(2.5, fit.Reaches(175)!.Value, 0.1);
        Assert.Equal(5, fit.Reaches(155)!.Value, 0.15);

        // Stewart, Calculus, average value of a function (as quoted in a mathematics forum): 95 °C to 61 °C in 30 minutes in a room of 20 °C, k = 0.02.
        Assert.Equal(0.02, ExponentialApproach.Fit([0, 30], [95, 61], 0.01, Known.Nothing, Known.Exactly(20), Known.Nothing).Rate, 0.0005);
    }

    [Fact]
    public void A_thermometer_taken_outside_tells_the_outside_temperature()
    {
        // A usual exercise in courses on differential equations: 70 °F inside, 60 °F after one minute, 53 °F after two. By hand: (70 * 53 - 60²) / (70 + 53 - 120).
        var fit = ExponentialApproach.Fit([0, 1, 2], [70, 60, 53], 0.01, Known.Nothing, Known.Nothing, Known.Nothing);
        Assert.Equal(110.0 / 3, fit.Asymptote, 1e-4);
    }

    private static void Close(double certified, double found, double relative = 1e-8) => Assert.Equal(certified, found, Math.Abs(certified) * relative);
}
