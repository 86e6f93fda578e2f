using CaptureAgent.Agent.Weighing;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Checks;

/// <summary>What the checks of a scale with a known mass say together.</summary>
/// <param name="Last">The newest check.</param>
/// <param name="RepeatabilityGrams">Standard deviation of the errors of the last ten; null for less than three.</param>
/// <param name="DriftGramsPerWeek">Slope of the errors over the last eight weeks; null for less than three checks, or where they were all at once.</param>
/// <param name="DriftStandardError">Of the slope, from the scatter about the line.</param>
/// <param name="DriftWeeks">From the first to the last of the checks behind the slope.</param>
internal sealed record ScaleHistory(ScaleCheckRow Last, double? RepeatabilityGrams, double? DriftGramsPerWeek, double? DriftStandardError, double DriftWeeks)
{
    private const int Newest = 10, Least = 3;

    /// <summary>A slope is believed when it is so many standard errors, over so many weeks; it is told when it leads out of tolerance within so many more (choices; no source).</summary>
    private const double PlainErrors = 3, PlainWeeks = 2, WeeksAhead = 4;

    private static readonly TimeSpan DriftTime = TimeSpan.FromDays(8 * 7);

    /// <param name="checks">Oldest first; null if there are none.</param>
    public static ScaleHistory? Of(IReadOnlyList<ScaleCheckRow> checks, DateTimeOffset now)
    {
        if (checks is not [.., var last])
            return null;
        double[] errors = [.. checks.TakeLast(Newest).Select(check => check.ErrorMilligrams / 1000.0)];
        IReadOnlyList<ScaleCheckRow> recent = [.. checks.Where(check => check.At >= now - DriftTime)];
        var (slope, error) = Drift(recent, now);
        var weeks = recent.Count == 0 ? 0 : (recent[^1].At - recent[0].At).TotalDays / 7;
        return new ScaleHistory(last, errors.Length < Least ? null : Series.Deviation(errors, Series.Mean(errors)), slope, error, weeks);
    }

    private double ToleranceGrams => Last.ToleranceMilligrams / 1000.0;

    /// <summary>The same mass is weighed more differently from check to check than the tolerance allows (OIML R 76-1, 3.6.1 allows a range of it, from memory; the deviation here spans weeks).</summary>
    public bool Scatters => RepeatabilityGrams > ToleranceGrams;

    /// <summary>Weeks until a plain drift leads out of tolerance; null where there is none, or it leads there later than in four.</summary>
    public double? WeeksLeft
    {
        get
        {
            if (DriftGramsPerWeek is not { } drift || DriftWeeks < PlainWeeks || Math.Abs(drift) <= PlainErrors * DriftStandardError || drift == 0)
                return null;
            var weeks = (Math.Sign(drift) * ToleranceGrams - Last.ErrorMilligrams / 1000.0) / drift;
            return weeks <= WeeksAhead ? Math.Max(0, weeks) : null;
        }
    }

    // A straight line by weighted least squares, each check by 1/u²; the standard error is widened by the scatter about the line, which the
    // uncertainties of single checks do not hold (NIST/SEMATECH e-Handbook of Statistical Methods, 4.4.3.2; from memory).
    private static (double? Slope, double? StandardError) Drift(IReadOnlyList<ScaleCheckRow> checks, DateTimeOffset now)
    {
        if (checks.Count < Least)
            return (null, null);
        double weights = 0, times = 0, errors = 0;
        foreach (var check in checks)
        {
            weights += Weight(check);
            times += Weight(check) * Weeks(check);
            errors += Weight(check) * Grams(check);
        }

        var (meanTime, meanError) = (times / weights, errors / weights);
        double spread = 0, together = 0;
        foreach (var check in checks)
        {
            spread += Weight(check) * (Weeks(check) - meanTime) * (Weeks(check) - meanTime);
            together += Weight(check) * (Weeks(check) - meanTime) * (Grams(check) - meanError);
        }

        if (spread <= 1e-9 * weights)
            return (null, null);
        var slope = together / spread;
        var scatter = checks.Sum(check => Weight(check) * Math.Pow(Grams(check) - meanError - slope * (Weeks(check) - meanTime), 2)) / (checks.Count - 2);
        return (slope, Math.Sqrt(scatter / spread));

        double Weeks(ScaleCheckRow check) => (check.At - now).TotalDays / 7;
        static double Grams(ScaleCheckRow check) => check.ErrorMilligrams / 1000.0;
        static double Weight(ScaleCheckRow check) => 1 / Math.Pow(Math.Max(1, check.UncertaintyMilligrams) / 1000.0, 2);
    }
}
