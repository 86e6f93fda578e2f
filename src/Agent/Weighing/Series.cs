namespace CaptureAgent.Agent.Weighing;

/// <summary>Statistics of a series of values, in its own unit. Not a number where there are too few values.</summary>
internal static class Series
{
    /// <summary>Of so few values no higher correlation can be told from a trend.</summary>
    private const double MostCorrelation = 0.8;

    /// <summary>Arithmetic mean; the deviations from a first mean are averaged too, so that a large offset costs no digits.</summary>
    public static double Mean(ReadOnlySpan<double> values)
    {
        if (values.IsEmpty)
            return double.NaN;
        double sum = 0, rest = 0;
        foreach (var value in values)
            sum += value;
        var mean = sum / values.Length;
        foreach (var value in values)
            rest += value - mean;
        return mean + rest / values.Length;
    }

    /// <summary>Sample standard deviation (n - 1), from the squares about <paramref name="mean"/>.</summary>
    public static double Deviation(ReadOnlySpan<double> values, double mean) =>
        values.Length < 2 ? double.NaN : Math.Sqrt(Squares(values, mean) / (values.Length - 1));

    /// <summary>Autocorrelation at lag 1: the products of neighbours' deviations over the squares of all (Box and Jenkins's r1; NIST StRD, univariate).</summary>
    /// <returns>0 where all values are the same.</returns>
    public static double Lag1(ReadOnlySpan<double> values, double mean)
    {
        double lagged = 0;
        for (var i = 1; i < values.Length; i++)
            lagged += (values[i] - mean) * (values[i - 1] - mean);
        var squares = Squares(values, mean);
        return squares > 0 ? lagged / squares : 0;
    }

    /// <summary>Median; the mean of the two in the middle where their number is even.</summary>
    /// <param name="values">In rising order.</param>
    public static double Median(ReadOnlySpan<double> values)
    {
        var half = values.Length / 2;
        return values.IsEmpty ? double.NaN : values.Length % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2;
    }

    /// <summary>The factor by which correlation between neighbours widens the variance of a mean, over that of as many independent values: n over the effective sample size.</summary>
    /// <param name="r">Correlation at lag 1 of a first-order autoregression, below 1 (Zwiers and von Storch 1995, for long series; from memory).</param>
    public static double Inflation(double r) => (1 + r) / (1 - r);

    /// <summary>Variance of the mean of values that follow each other with correlation: the largest of three estimates, for each misses a kind of it.</summary>
    /// <remarks>
    /// From the deviation with the lag-1 autocorrelation, its negative bias of about 1/n put back (Marriott and Pope 1954, from memory), never credited when negative;
    /// and from groups of two and of four values, in which a longer correlation shows (<see cref="GroupedVariance"/>).
    /// </remarks>
    public static double VarianceOfMean(ReadOnlySpan<double> values, double mean)
    {
        var n = values.Length;
        if (n < 2)
            return double.NaN;
        var squares = Squares(values, mean);
        var r = squares > 0 ? Math.Clamp(Lag1(values, mean) + 1.0 / n, 0, MostCorrelation) : 0;
        var single = squares / (n - 1) / n * Inflation(r);
        return Math.Max(single, Math.Max(GroupedVariance(values, mean, 2), GroupedVariance(values, mean, 4)));
    }

    /// <summary>Variance of the mean from the means of groups of neighbours, counted from the newest (method of batch means; Schmeiser 1982, from memory).</summary>
    /// <returns>0 where there are fewer than three groups.</returns>
    public static double GroupedVariance(ReadOnlySpan<double> values, double mean, int group)
    {
        var groups = values.Length / group;
        if (groups < 3)
            return 0;
        double squares = 0;
        for (var i = 1; i <= groups; i++)
        {
            var deviation = Mean(values.Slice(values.Length - i * group, group)) - mean;
            squares += deviation * deviation;
        }

        return squares / (groups - 1) / groups;
    }

    /// <summary>Sum of the squared deviations, corrected for what rounding left of their sum (corrected two-pass algorithm: Chan, Golub and LeVeque 1983).</summary>
    public static double Squares(ReadOnlySpan<double> values, double mean)
    {
        double squares = 0, sum = 0;
        foreach (var value in values)
        {
            var deviation = value - mean;
            squares += deviation * deviation;
            sum += deviation;
        }

        return values.IsEmpty ? 0 : Math.Max(0, squares - sum * sum / values.Length);
    }
}
