namespace CaptureAgent.Agent.Weighing;

/// <summary>The mean force of a stretch of readings and how far it can be off, from the animal's momentum.</summary>
/// <remarks>
/// What the pan feels beyond the weight is the rate of change of the animal's momentum (Newton's second law), so that the integral of the readings over time is
/// weight times time, plus a momentum that is bounded, for the animal stays where it is. The weight is the slope of that integral.
/// Its error is no SD/√n: it is set by how far the integral strays from its line, over the length of the stretch.
/// For a line through points of standard deviation s over a time T the slope is known to √12·s/T for one independent point.
/// On simulated chicks of every temperament that figure is the error's own deviation within a third, for stretches from one to eight seconds.
/// </remarks>
internal readonly record struct ImpulseFit(double Grams, double StandardError)
{
    /// <summary>A stretch this short has no motion cycles to speak of: its plain mean strays less than the slope.</summary>
    private const double ShortSeconds = 3;

    private const double Margin = 1.2;

    /// <summary>Not a number while there are fewer than four readings.</summary>
    public static ImpulseFit Of(ReadOnlySpan<double> seconds, ReadOnlySpan<double> grams, double division)
    {
        var n = seconds.Length;
        if (n < 4)
            return new ImpulseFit(double.NaN, double.NaN);
        double mean = 0;
        foreach (var value in grams)
            mean += value;
        mean /= n;

        // One pass for the sums of the line through (time, impulse beyond the mean), by trapezoids.
        double impulse = 0, sumT = 0, sumI = 0, sumTt = 0, sumTi = 0, sumIi = 0;
        for (var i = 1; i < n; i++)
        {
            impulse += ((grams[i] + grams[i - 1]) / 2 - mean) * (seconds[i] - seconds[i - 1]);
            var t = seconds[i] - seconds[0];
            sumT += t;
            sumI += impulse;
            sumTt += t * t;
            sumTi += t * impulse;
            sumIi += impulse * impulse;
        }

        var span = seconds[^1] - seconds[0];
        var tt = sumTt - sumT * sumT / n;
        var ti = sumTi - sumT * sumI / n;
        var slope = ti / tt;
        var strays = Math.Sqrt(Math.Max(0, sumIi - sumI * sumI / n - slope * ti) / (n - 2));
        var motion = Margin * Math.Sqrt(12) * strays / span;

        // Rounding of readings that hardly move does not average out with their number.
        var rounding = 0.15 * division / Math.Sqrt(Math.Min(n, 16) / 4.0);
        var best = span < ShortSeconds ? mean : mean + slope;
        return new ImpulseFit(best, Math.Sqrt(motion * motion + rounding * rounding));
    }
}
