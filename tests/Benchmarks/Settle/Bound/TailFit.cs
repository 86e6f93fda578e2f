namespace CaptureAgent.Benchmarks.Settle.Bound;

/// <summary>The mean force behind readings that still carry the tail of a step through a known filter.</summary>
/// <remarks>
/// Readings are cumulated over time. What a moving animal adds to the sum is its momentum (through the filter), which is bounded, so that the sum is a straight line
/// whose slope is the weight, plus the integral of the step's tail: for n equal stages of time constant τ, exp(-t/τ) and from the second stage on t·exp(-t/τ).
/// Ordinary least squares finds slope and tail together. With s the deviation of the residuals, n their number and N the matrix of the normal equations,
/// the slope's standard error is taken as s·√(n·N⁻¹): without a tail √12·s/T over T seconds, which is what an error of s at either end of a line of that length does to its slope.
/// </remarks>
/// <param name="filterSeconds">Time constant of each stage.</param>
/// <param name="filterOrder">Stages: 1 or 2.</param>
/// <param name="pivot">Near the value, in grams: taken off every reading, so that digits are not lost in the sums. The result does not depend on it.</param>
internal sealed class TailFit(double filterSeconds, int filterOrder, double pivot)
{
    private const int Most = 4;
    private readonly int columns = 2 + filterOrder;
    private readonly double[,] normal = new double[Most, Most];
    private readonly double[] right = new double[Most];
    private double squares, sum, first, last, lastGrams;

    public int Count { get; private set; }

    public double Seconds => Count == 0 ? 0 : last - first;

    public bool CanSolve => Count >= columns + 3;

    public void Add(double seconds, double grams)
    {
        grams -= pivot;
        if (Count == 0)
            first = seconds;
        else
            sum += (seconds - last) * (grams + lastGrams) / 2;
        (last, lastGrams) = (seconds, grams);
        Count++;

        var t = seconds - first;
        var tail = Math.Exp(-t / filterSeconds);
        Span<double> row = [1, t, tail, t * tail];
        for (var i = 0; i < columns; i++)
        {
            for (var j = 0; j < columns; j++)
                normal[i, j] += row[i] * row[j];
            right[i] += row[i] * sum;
        }

        squares += sum * sum;
    }

    /// <summary>Slope in grams, and its standard error before calibration.</summary>
    public (double Grams, double StandardError) Solve()
    {
        // Gauss and Jordan, on the normal equations beside their right side and the unit vector of the slope; the diagonal is large enough for no pivoting to be needed.
        var a = new double[columns, columns + 2];
        for (var i = 0; i < columns; i++)
        {
            for (var j = 0; j < columns; j++)
                a[i, j] = normal[i, j];
            a[i, columns] = right[i];
            a[i, columns + 1] = i == 1 ? 1 : 0;
        }

        for (var pivot = 0; pivot < columns; pivot++)
        {
            for (var i = 0; i < columns; i++)
            {
                var factor = i == pivot ? 0 : a[i, pivot] / a[pivot, pivot];
                for (var j = 0; j < columns + 2 && i != pivot; j++)
                    a[i, j] -= factor * a[pivot, j];
            }
        }

        var residual = squares;
        for (var i = 0; i < columns; i++)
            residual -= right[i] * a[i, columns] / a[i, i];
        var deviation = Math.Sqrt(Math.Max(0, residual) / (Count - columns));
        return (pivot + (a[1, columns] / a[1, 1]), deviation * Math.Sqrt(Count * Math.Max(0, a[1, columns + 1] / a[1, 1])));
    }
}
