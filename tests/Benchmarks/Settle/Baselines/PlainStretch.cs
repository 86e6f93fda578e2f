namespace CaptureAgent.Benchmarks.Settle.Baselines;

/// <summary>A stretch of readings in a few figures, for <see cref="PlainEstimator"/>.</summary>
/// <param name="Mean">In grams, as the next two.</param>
/// <param name="StandardError">Of the mean, from the wandering of the sum of what is off it: a chick's own motion adds its momentum to that sum, which is bounded.</param>
/// <param name="Deviation">Of the readings; a spike counts for little.</param>
/// <param name="Crossings">How often they came from one side of the mean to the other.</param>
internal readonly record struct PlainStretch(double Mean, double StandardError, double Deviation, int Crossings)
{
    private const double ErrorsPerWander = 2.3;

    /// <summary>In squared divisions: rounding, of the weight and of the tare.</summary>
    private const double RoundingVariance = 0.05;

    /// <summary>At most so many times the mean distance from the mean.</summary>
    private const double MostDeviation = 1.55;

    /// <summary>In divisions: what is nearer to the mean is on no side of it.</summary>
    private const double OnTheMean = 0.3;

    public static PlainStretch Of(ReadOnlySpan<double> readings, double division)
    {
        var count = readings.Length;
        var mean = 0.0;
        foreach (var grams in readings)
            mean += grams;
        mean /= count;

        double squares = 0, distances = 0, sum = 0, sums = 0, squaredSums = 0;
        var crossings = 0;
        var above = readings[0] > mean;
        foreach (var grams in readings)
        {
            var off = grams - mean;
            squares += off * off;
            distances += Math.Abs(off);
            sum += off;
            sums += sum;
            squaredSums += sum * sum;
            if (Math.Abs(off) <= OnTheMean * division || off > 0 == above)
                continue;
            above = !above;
            crossings++;
        }

        var wander = Math.Max(0, (squaredSums / count) - (sums / count * (sums / count)));
        var error = Math.Sqrt((ErrorsPerWander * ErrorsPerWander * wander / ((double)count * count)) + (RoundingVariance * division * division));
        var deviation = Math.Min(Math.Sqrt(squares / Math.Max(1, count - 1)), MostDeviation * distances / count);
        return new(mean, error, deviation, crossings);
    }
}
