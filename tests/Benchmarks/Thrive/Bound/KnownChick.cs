using CaptureAgent.Simulators.Rooms;

namespace CaptureAgent.Benchmarks.Thrive.Bound;

/// <summary>A simulated chick as one sees it who knows its healthy course, the size of the noise and its correlation: nothing is left but to judge residuals.</summary>
internal sealed class KnownChick
{
    private readonly RoomConditions conditions;
    private readonly RoomChick weighed;
    private readonly IReadOnlyList<double> course;
    private readonly double[] gain, variance, foretold;

    /// <param name="healthy">The same chick of the room to which nothing was done.</param>
    public KnownChick(RoomConditions conditions, RoomChick weighed, RoomChick healthy)
    {
        (this.conditions, this.weighed, course) = (conditions, weighed, healthy.Course);
        var days = weighed.Weights.Length;
        (gain, variance, foretold) = (new double[days], new double[days], new double[days]);
        var spread = conditions.Noise * conditions.Noise;
        double noise = 0, doubt = spread;
        for (var day = First; day < days; day++)
        {
            noise *= conditions.Correlation;
            doubt = conditions.Correlation * conditions.Correlation * doubt + (1 - conditions.Correlation * conditions.Correlation) * spread;
            foretold[day] = noise;
            variance[day] = doubt + OtherVariance(day);
            if (weighed.Weights[day] <= 0)
                continue;
            gain[day] = doubt / variance[day];
            noise += gain[day] * (Residual(day) - noise);
            doubt -= gain[day] * doubt;
        }
    }

    public RoomChick Chick => weighed;

    public int First => Math.Max(weighed.HatchDay, 0);

    /// <summary>ln(weight) expected of a day, the noise that was left over from the day before included, and its standard deviation.</summary>
    public (double Mean, double Deviation) Foretell(int day) => (course[day] + foretold[day], Math.Sqrt(variance[day]));

    public double Z(int day) => (Residual(day) - foretold[day]) / Math.Sqrt(variance[day]);

    public double HealthyGain(int day) => day > First ? course[day] - course[day - 1] : 0;

    /// <summary>Log likelihood ratio of a known departure that began on some morning of the last eight; the largest.</summary>
    /// <param name="departure">Of ln(weight), by the healthy gain since the morning before the first and the days since.</param>
    public double Departed(int day, Func<double, int, double> departure)
    {
        const int Longest = 8;
        var best = double.NegativeInfinity;
        for (var onset = Math.Max(First + 1, day - Longest + 1); onset <= day; onset++)
        {
            double ratio = 0, left = 0;
            for (var at = onset; at <= day; at++)
            {
                left *= conditions.Correlation;
                if (weighed.Weights[at] <= 0)
                    continue;
                var signature = departure(course[at] - course[onset - 1], at - onset + 1) - left;
                ratio += signature * (Residual(at) - foretold[at] - signature / 2) / variance[at];
                left += gain[at] * signature;
            }

            best = Math.Max(best, ratio);
        }

        return best;
    }

    private double Residual(int day) => Math.Log(weighed.Weights[day]) - course[day];

    // The room's common noise, and rounding to a division.
    private double OtherVariance(int day)
    {
        var step = conditions.Division / Math.Exp(course[day]);
        return conditions.CommonNoise * conditions.CommonNoise + step * step / 12;
    }
}
