namespace CaptureAgent.Agent.Weighing;

/// <summary>The weight from readings that are too rare to show strides: their mean, in which quiet moments count for more.</summary>
/// <remarks>
/// Of readings rarer than the strides nothing averages out by momentum: each is the weight and an error of its own. But an animal moves in bouts, and between them its readings
/// err by far less. Each reading counts by the inverse of the variance about it, from its neighbours in time and a little from itself, drawn to the variance of all
/// (a location estimate by iteratively reweighted least squares: Holland and Welsch 1977; from memory). The more a reading's own distance counts, the less a mean errs, but the more
/// a skewed force (footfalls are short and hard) pulls it aside: with this share by a third of the error of forty readings at a skewness of one.
/// The error is that of an M-estimate: the root of the sum of the squared influences over the slope of their sum (Huber 1967), leverages put back (MacKinnon and White 1985), and
/// with what neighbours within a stride have in common (Bartlett weights: Newey and West 1987; all from memory).
/// </remarks>
internal sealed class BoutMean
{
    public const int LeastReadings = 8;

    /// <summary>Strides are of 0.7 to 2.5 Hz (common practice, no source): of three readings a second and fewer those above 1.5 Hz are seen as chance.</summary>
    private const double RareSeconds = 0.3;

    private const int MostReadings = 256;

    /// <summary>How far the readings tell of one another's variance: a bout or a rest takes some seconds.</summary>
    private const double ReachSeconds = 1.6;

    /// <summary>How much a reading tells of its own variance, beside a neighbour next to it.</summary>
    private const double Own = 0.25;

    /// <summary>How much all readings tell of it.</summary>
    private const double Common = 1;

    private const int Rounds = 6;

    /// <summary>Strides forget themselves within about one: readings further apart are strange to one another.</summary>
    private const double StrideSeconds = 1;

    /// <summary>Share of the variance that is left at least where neighbours undo one another: of few readings they may by chance.</summary>
    private const double LeastShare = 0.15;

    private readonly double[] weights = new double[MostReadings];
    private readonly double[] squares = new double[MostReadings];
    private readonly double[] counts = new double[MostReadings];
    private readonly double[] influences = new double[MostReadings];
    private readonly double[] times = new double[MostReadings];
    private readonly double[] offs = new double[MostReadings];
    private int taken;

    /// <summary>Grams.</summary>
    public double Grams { get; private set; }

    /// <summary>Standard error of <see cref="Grams"/>, in grams.</summary>
    public double Error { get; private set; }

    /// <summary>Whether the readings are rarer than strides.</summary>
    public static bool IsRare(in ImpulseLine line) => line.Seconds > RareSeconds * (line.Count - 1);

    /// <summary>Whether they are that, enough, and strange to one another: what is smooth all the same is better known by its impulse.</summary>
    public static bool IsFor(in ImpulseLine line) => line.Count >= LeastReadings && IsRare(line) && line.Rough >= 1;

    /// <summary>Of the readings of a series from one on.</summary>
    /// <param name="near">About the weight, in grams.</param>
    /// <param name="limit">Readings further off are a flap: none of the strides.</param>
    /// <returns>False where too few are left.</returns>
    public bool TryFind(ImpulseSeries series, int from, double near, double limit)
    {
        if (!Take(series, Math.Max(from, series.Count - MostReadings), near, limit))
            return false;
        double grams = 0, all = 0;
        for (var round = 0; round < Rounds; round++)
        {
            all = 0;
            for (var i = 0; i < taken; i++)
            {
                squares[i] = (offs[i] - grams) * (offs[i] - grams);
                all += squares[i] / (taken - 1);
            }

            if (!(all > 0))
                break;
            Weigh(all);
            double sum = 0, weight = 0;
            for (var i = 0; i < taken; i++)
            {
                weight += weights[i];
                sum += weights[i] * offs[i];
            }

            grams = sum / weight;
        }

        Grams = near + grams;
        Error = all > 0 ? ErrorOf(grams) : 0;
        return true;
    }

    private bool Take(ImpulseSeries series, int from, double near, double limit)
    {
        taken = 0;
        for (var i = from; i < series.Count; i++)
        {
            var off = series.GramsOf(i) - near;
            if (Math.Abs(off) > limit)
                continue;
            (times[taken], offs[taken]) = (series.TimeOf(i), off);
            taken++;
        }

        return taken >= LeastReadings;
    }

    private void Weigh(double all)
    {
        for (var i = 0; i < taken; i++)
        {
            var (count, sum) = (Common + Own, Common * all + Own * squares[i]);
            for (var step = -1; step <= 1; step += 2)
            {
                for (var k = i + step; k >= 0 && k < taken; k += step)
                {
                    var share = 1 - Math.Abs(times[k] - times[i]) / ReachSeconds;
                    if (share <= 0)
                        break;
                    count += share;
                    sum += share * squares[k];
                }
            }

            (counts[i], weights[i]) = (count, count / sum);
        }
    }

    private double ErrorOf(double grams)
    {
        double total = 0, slope = 0, alone = 0, together = 0;
        for (var i = 0; i < taken; i++)
            total += weights[i];
        for (var i = 0; i < taken; i++)
        {
            slope += weights[i] * (1 - 2 * Own * squares[i] * weights[i] / counts[i]);
            influences[i] = weights[i] * (offs[i] - grams) / (1 - weights[i] / total);
            alone += influences[i] * influences[i];
            for (var k = i - 1; k >= 0; k--)
            {
                var share = 1 - (times[i] - times[k]) / StrideSeconds;
                if (share <= 0)
                    break;
                together += 2 * share * influences[i] * influences[k];
            }
        }

        return Math.Sqrt(Math.Max(LeastShare * alone, alone + together)) / slope;
    }
}
