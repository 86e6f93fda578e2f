using CaptureAgent.Agent.Growth.Fitting;

namespace CaptureAgent.Agent.Tests.Growth.Fitting;

/// <summary>A fit in another author's parameters: their values, and their standard errors by the derivatives of the change, which at a least-squares minimum is exact.</summary>
internal sealed class ReparameterisedFit(GrowthFit fit, double[] values, double[,] jacobian)
{
    public double Value(int i) => values[i];

    public double StandardError(int i)
    {
        var sum = 0.0;
        for (var j = 0; j < fit.Parameters.Length; j++)
        {
            for (var k = 0; k < fit.Parameters.Length; k++)
                sum += jacobian[i, j] * fit.Unscaled![j, k] * jacobian[i, k];
        }

        return fit.ResidualSd * Math.Sqrt(sum);
    }

    /// <summary>The logistic curve as b1 / (1 + exp(b2 - b3 x)).</summary>
    public static ReparameterisedFit Ratkowsky(GrowthFit logistic)
    {
        var (a, k, ti) = (logistic.Parameters[0], logistic.Parameters[1], logistic.Parameters[2]);
        return new(logistic, [a, k * ti, k], new[,] { { 1.0, 0, 0 }, { 0, ti, k }, { 0, 1, 0 } });
    }

    /// <summary>Richards's curve as b1 / (1 + exp(b2 - b3 x))^(1 / b4).</summary>
    public static ReparameterisedFit RatkowskyRichards(GrowthFit richards)
    {
        var (a, k, ti, m) = (richards.Parameters[0], richards.Parameters[1], richards.Parameters[2], richards.Parameters[3] - 1);
        return new(richards, [a, Math.Log(m) + k * ti, k, m], new[,] { { 1.0, 0, 0, 0 }, { 0, ti, k, 1 / m }, { 0, 1, 0, 0 }, { 0, 0, 0, 1 } });
    }

    /// <summary>The logistic curve as Asym / (1 + exp((xmid - x) / scal)): R's SSlogis.</summary>
    public static ReparameterisedFit SelfStartLogistic(GrowthFit logistic)
    {
        var (a, k, ti) = (logistic.Parameters[0], logistic.Parameters[1], logistic.Parameters[2]);
        return new(logistic, [a, ti, 1 / k], new[,] { { 1.0, 0, 0 }, { 0, 0, 1 }, { 0, -1 / (k * k), 0 } });
    }

    /// <summary>Gompertz's curve as Asym exp(-b2 b3^x): R's SSgompertz.</summary>
    public static ReparameterisedFit SelfStartGompertz(GrowthFit gompertz)
    {
        var (a, k, ti) = (gompertz.Parameters[0], gompertz.Parameters[1], gompertz.Parameters[2]);
        var (b2, b3) = (Math.Exp(k * ti), Math.Exp(-k));
        return new(gompertz, [a, b2, b3], new[,] { { 1.0, 0, 0 }, { 0, ti * b2, k * b2 }, { 0, -b3, 0 } });
    }
}
