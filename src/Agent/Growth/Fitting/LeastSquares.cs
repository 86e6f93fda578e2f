namespace CaptureAgent.Agent.Growth.Fitting;

/// <summary>Nonlinear least squares by Levenberg's and Marquardt's method, with the curve's own derivatives.</summary>
/// <remarks>
/// The step and its damping follow Madsen, Nielsen and Tingleff, Methods for Non-Linear Least Squares Problems (2004), 3.2, with
/// Marquardt's scaling; each step is solved by QR, never by normal equations. Convergence is the relative offset of Bates and Watts,
/// Technometrics 23 (1981) 179, as in R's nls, but at 1e-9 where nls asks for 1e-5.
/// Holds its buffers: one object a thread, as many fits as wanted, no allocation once they are large enough.
/// </remarks>
internal sealed class LeastSquares
{
    public const int MostParameters = 4;

    private const int MostSteps = 300;
    private const double Offset = 1e-9;
    private const double SmallestStep = 1e-13;

    private double[] jacobian = [];
    private double[] residuals = [];
    private readonly double[] stacked = new double[2 * MostParameters * MostParameters];
    private readonly double[] right = new double[2 * MostParameters];
    private readonly double[] scale = new double[MostParameters];

    /// <summary>Sum of the squared residuals at the parameters that were found.</summary>
    public double Rss { get; private set; }

    public int Steps { get; private set; }

    /// <summary>Moves the parameters to a least-squares minimum.</summary>
    /// <returns>False where no minimum was reached: the sum still fell, or no step led down, or the derivatives depend on each other.</returns>
    public bool Minimise(ICurve curve, ReadOnlySpan<double> x, ReadOnlySpan<double> y, Span<double> parameters)
    {
        var (n, p) = (x.Length, curve.Parameters);
        Reserve(n, p);
        Array.Clear(scale);
        Span<double> step = stackalloc double[MostParameters], tried = stackalloc double[MostParameters];
        step = step[..p];
        tried = tried[..p];
        var (damping, growth) = (1e-1, 2.0);
        Rss = SumOfSquares(curve, x, y, parameters);
        for (Steps = 0; Steps < MostSteps && double.IsFinite(Rss); Steps++)
        {
            Linearise(curve, x, y, parameters);
            if (IsConverged(n, p))
                return true;
            while (true)
            {
                if (!Step(n, p, damping, step))
                    return false;
                for (var j = 0; j < p; j++)
                    tried[j] = parameters[j] + step[j];
                var next = SumOfSquares(curve, x, y, tried);
                var small = IsSmall(step, parameters);
                // Near the minimum the sum no longer tells steps apart; a tiny one is taken where it does no harm.
                if (next < Rss || small && next <= Rss * (1 + 1e-12))
                {
                    var gain = (Rss - next) / Promised(n, p, damping, step);
                    tried.CopyTo(parameters);
                    Rss = next;
                    if (small)
                        return true;
                    damping *= Math.Max(1.0 / 9, 1 - Math.Pow(2 * Math.Min(gain, 1) - 1, 3));
                    growth = 2;
                    break;
                }

                if (small || damping > 1e15)
                    return small;
                damping *= growth;
                growth *= 2;
            }
        }

        return false;
    }

    /// <summary>Takes the sum of squares at parameters that were found before.</summary>
    public void Evaluate(ICurve curve, ReadOnlySpan<double> x, ReadOnlySpan<double> y, ReadOnlySpan<double> parameters) =>
        Rss = SumOfSquares(curve, x, y, parameters);

    /// <summary>(J'J)^-1 at the parameters, by rows; the covariance is this times the residual variance. Null where it does not exist.</summary>
    /// <param name="leverages">Gets the diagonal of the hat matrix, one an observation.</param>
    public double[,]? Unscaled(ICurve curve, ReadOnlySpan<double> x, ReadOnlySpan<double> y, ReadOnlySpan<double> parameters, Span<double> leverages)
    {
        var (n, p) = (x.Length, curve.Parameters);
        Reserve(n, p);
        Linearise(curve, x, y, parameters);
        Span<double> unit = stackalloc double[MostParameters], solved = stackalloc double[MostParameters];
        var inverse = new double[p, p];
        for (var j = 0; j < p; j++)
        {
            unit.Clear();
            unit[j] = 1;
            if (!Householder.Solve(jacobian, n, unit, solved, p))
                return null;
            for (var i = 0; i < p; i++)
                inverse[i, j] = solved[i];
        }

        for (var i = 0; i < n; i++)
        {
            curve.Value(x[i], parameters, unit);
            leverages[i] = 0;
            for (var j = 0; j < p; j++)
            {
                var part = 0.0;
                for (var k = 0; k <= j; k++)
                    part += unit[k] * inverse[k, j];
                leverages[i] += part * part;
            }
        }

        var unscaled = new double[p, p];
        for (var i = 0; i < p; i++)
        {
            for (var j = 0; j < p; j++)
            {
                for (var k = Math.Max(i, j); k < p; k++)
                    unscaled[i, j] += inverse[i, k] * inverse[j, k];
            }
        }

        return unscaled;
    }

    private static double SumOfSquares(ICurve curve, ReadOnlySpan<double> x, ReadOnlySpan<double> y, ReadOnlySpan<double> parameters)
    {
        Span<double> gradient = stackalloc double[MostParameters];
        var sum = 0.0;
        for (var i = 0; i < x.Length; i++)
        {
            var residual = y[i] - curve.Value(x[i], parameters, gradient);
            sum += residual * residual;
        }

        return sum;
    }

    // Leaves R in jacobian, Q'r in residuals, and the largest norm yet of each column in scale.
    private void Linearise(ICurve curve, ReadOnlySpan<double> x, ReadOnlySpan<double> y, ReadOnlySpan<double> parameters)
    {
        var (n, p) = (x.Length, curve.Parameters);
        Span<double> gradient = stackalloc double[MostParameters];
        for (var i = 0; i < n; i++)
        {
            residuals[i] = y[i] - curve.Value(x[i], parameters, gradient);
            for (var j = 0; j < p; j++)
                jacobian[j * n + i] = gradient[j];
        }

        for (var j = 0; j < p; j++)
            scale[j] = Math.Max(scale[j], Householder.Norm(jacobian.AsSpan(j * n, n)));
        Householder.Factor(jacobian, residuals, n, p);
    }

    private bool IsConverged(int n, int p)
    {
        var explained = Householder.Norm(residuals.AsSpan(0, p));
        var rest = Householder.Norm(residuals.AsSpan(p, n - p));
        return explained * Math.Sqrt(n - p) <= Offset * rest * Math.Sqrt(p) || Rss == 0;
    }

    private bool Step(int n, int p, double damping, Span<double> step)
    {
        for (var j = 0; j < p; j++)
        {
            var column = stacked.AsSpan(j * 2 * p, 2 * p);
            column.Clear();
            for (var i = 0; i <= j; i++)
                column[i] = jacobian[j * n + i];
            column[p + j] = Math.Sqrt(damping) * scale[j];
            (right[j], right[p + j]) = (residuals[j], 0);
        }

        Householder.Factor(stacked, right, 2 * p, p);
        return Householder.Solve(stacked, 2 * p, right, step, p);
    }

    // How much the sum would fall if the curve were as straight as its derivatives.
    private double Promised(int n, int p, double damping, ReadOnlySpan<double> step)
    {
        var sum = 0.0;
        for (var i = 0; i < p; i++)
        {
            var moved = 0.0;
            for (var j = i; j < p; j++)
                moved += jacobian[j * n + i] * step[j];
            sum += moved * moved + 2 * damping * Math.Pow(scale[i] * step[i], 2);
        }

        return sum;
    }

    private static bool IsSmall(ReadOnlySpan<double> step, ReadOnlySpan<double> parameters)
    {
        for (var j = 0; j < step.Length; j++)
        {
            if (Math.Abs(step[j]) > SmallestStep * (Math.Abs(parameters[j]) + SmallestStep))
                return false;
        }

        return true;
    }

    private void Reserve(int n, int p)
    {
        if (jacobian.Length < n * p)
            jacobian = new double[2 * n * p];
        if (residuals.Length < n)
            residuals = new double[2 * n];
    }
}
