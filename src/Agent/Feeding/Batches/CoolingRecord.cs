namespace CaptureAgent.Agent.Feeding.Batches;

/// <summary>When a batch will have cooled to a temperature, seconds from now.</summary>
/// <param name="Soonest">Lower end of the 95 % interval.</param>
/// <param name="Latest">Upper end of the 95 % interval.</param>
internal readonly record struct CoolingForecast(double Seconds, double Soonest, double Latest);

/// <summary>The settled temperatures of one batch, and what they say of its cooling. Times in seconds, temperatures in °C.</summary>
/// <remarks>Newton's law with the room as asymptote. Readings are taken together to blocks, for the noise of a probe's last digit is not independent from reading to reading.</remarks>
internal sealed class CoolingRecord(double roomCelsius, double roomDeviation)
{
    /// <summary>Where nobody says otherwise, °C.</summary>
    public const double UsualRoom = 24;

    private const double BlockSeconds = 5;

    private const int MostBlocks = 400;

    /// <summary>Noise of a block beside the rounding, °C.</summary>
    private const double Noise = 0.03;

    /// <summary>0.02 a minute and a factor of two either way: a jug, a bowl, a cup (computed from heat loss, no source).</summary>
    private static readonly Known Rate = new(Math.Log(0.02 / 60), Math.Log(2));

    private readonly List<double> times = [], levels = [];
    private double from = double.NaN, sum, timeSum, resolution = 0.1;
    private int count;
    private bool provisional;
    private double? newest;
    private ExponentialApproach? fit;

    /// <param name="firm">The probe has been at rest long enough: what it was still rising would hide the cooling. Until then the newest temperature is all that counts.</param>
    public void Add(double seconds, double celsius, double step, bool firm = true)
    {
        newest = seconds;
        resolution = step;
        if (!firm && times.Count > 0)
            return;
        if (!firm || provisional)
            (count, sum, timeSum, from, fit) = (0, 0, 0, double.NaN, null);
        provisional = !firm;
        if (double.IsNaN(from))
            from = seconds;
        if (count > 0 && seconds - from >= BlockSeconds)
            Close(seconds);
        sum += celsius;
        timeSum += seconds;
        count++;
    }

    /// <summary>Null if it is there already, or never gets there.</summary>
    public CoolingForecast? Reaches(double celsius, double now)
    {
        if (newest is null)
            return null;
        var approach = fit ??= Fit();
        var origin = Origin;
        if (approach.Reaches(celsius) is not { } at)
            return null;
        var deviation = Deviation(approach, celsius, at);
        var left = Math.Max(0, origin + at - now);
        return new CoolingForecast(left, Math.Max(0, left - (1.96 * deviation)), left + (1.96 * deviation));
    }

    /// <summary>What it should be at a moment, and the least it can be.</summary>
    public (double Likely, double Least)? Expected(double now)
    {
        if (newest is not { } last)
            return null;
        var approach = fit ??= Fit();
        return (approach.At(now - Origin), Coldest(approach.At(last - Origin), now - last, roomCelsius));
    }

    /// <summary>What it has after so long if nothing keeps it warm and it cools as fast as a cup can.</summary>
    public static double Coldest(double celsius, double seconds, double roomCelsius = UsualRoom)
    {
        const double fastest = 0.06 / 60;
        return Math.Min(celsius, roomCelsius + ((celsius - roomCelsius) * Math.Exp(-fastest * seconds)));
    }

    private double Origin => times.Count > 0 ? times[0] : timeSum / count;

    private void Close(double seconds)
    {
        times.Add(timeSum / count);
        levels.Add(sum / count);
        (from, sum, timeSum, count) = (seconds, 0, 0, 0);
        fit = null;
        if (times.Count <= MostBlocks)
            return;
        times.RemoveAt(0);
        levels.RemoveAt(0);
    }

    private ExponentialApproach Fit()
    {
        double[] x, y;
        if (times.Count == 0)
            (x, y) = ([0], [sum / count]);
        else
            (x, y) = ([.. times.Select(time => time - times[0])], [.. levels]);
        var deviation = Math.Sqrt((Noise * Noise) + (resolution * resolution / 12));
        return ExponentialApproach.Fit(x, y, deviation, Known.Nothing, new Known(roomCelsius, roomDeviation), Rate);
    }

    // Of the moment, by the slopes of it in the parameters.
    private static double Deviation(ExponentialApproach fit, double celsius, double at)
    {
        double[] slope = new double[3];
        for (var j = 0; j < 3; j++)
        {
            var by = Math.Sqrt(Math.Max(fit.Covariance[j, j], 1e-18)) * 0.1;
            var moved = j switch
            {
                0 => fit with { Start = fit.Start + by },
                1 => fit with { Asymptote = fit.Asymptote + by },
                _ => fit with { LogRate = fit.LogRate + by },
            };
            slope[j] = ((moved.Reaches(celsius) ?? at) - at) / by;
        }

        var variance = 0.0;
        for (var j = 0; j < 3; j++)
        {
            for (var k = 0; k < 3; k++)
                variance += slope[j] * fit.Covariance[j, k] * slope[k];
        }

        return Math.Sqrt(Math.Max(0, variance));
    }
}
