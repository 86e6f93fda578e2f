using CaptureAgent.Agent.Round;

namespace CaptureAgent.Agent.Growth;

/// <summary>The weights that a chick can have, and the one that is likeliest; grams.</summary>
internal readonly record struct PlausibleRange(double Low, double Likely, double High)
{
    /// <summary>Crop contents: up to 12 % of body weight (common practice, no source).</summary>
    public const double FullCrop = 1.12;

    /// <summary>The same, and the error of two weights.</summary>
    private const double CropAndError = 1.18;

    /// <summary>A chick may lose a fifth in a day and still be that chick: such a weight is bad news, not a wrong one.</summary>
    private const double WorstFirstDay = 0.80;

    private const double WorstLaterDay = 0.95;

    /// <summary>From the chick's own weights up to the day asked about; null if there is none, or the last is more than 60 days old.</summary>
    public static PlausibleRange? FromHistory(IReadOnlyList<Weight> weights, DateOnly day, int? ageDays)
    {
        var n = weights.Count;
        while (n > 0 && weights[n - 1].Day > day)
            n--;
        if (n == 0)
            return null;

        var last = weights[n - 1];
        var days = day.DayNumber - last.Day.DayNumber;
        if (days > 60)
            return null;

        var grams = (double)last.Grams;
        var most = DailyGain.MostRatio(ageDays, days);
        var trend = Trend(weights, n);
        var likely = grams * Math.Clamp(Math.Exp((trend ?? Math.Log(most) / Math.Max(days, 1) / 2) * days), 0.9, most);

        // A known trend narrows what growth can have done; a short one does not.
        var high = n >= 3 && ageDays is > 7 ? Math.Max(likely * Math.Pow(1.02, days), grams) : grams * most;
        var low = grams * (days == 0 ? 0.85 : WorstFirstDay * Math.Pow(WorstLaterDay, days - 1));
        return new PlausibleRange(low, likely, high * CropAndError);
    }

    /// <summary>The same chick, its forecast known: grams and the standard deviation of their logarithm.</summary>
    /// <remarks>The forecast says what is likely; what is possible stays wide, for a failing chick must be weighed too.</remarks>
    public PlausibleRange Foreseen(double grams, double deviation) => this with
    {
        Likely = Math.Clamp(grams, Low, High),
        High = Math.Max(Math.Min(High, grams * Math.Exp(3 * deviation) * FullCrop), Low),
    };

    public bool Holds(double grams, double uncertainty) => grams >= Low - 3 * uncertainty && grams <= High + 3 * uncertainty;

    // Mean daily change of log weight over up to the last four weights.
    private static double? Trend(IReadOnlyList<Weight> weights, int n)
    {
        if (n < 2)
            return null;
        var first = weights[Math.Max(0, n - 4)];
        var last = weights[n - 1];
        var days = last.Day.DayNumber - first.Day.DayNumber;
        return days is > 0 and <= 30 ? Math.Log((double)last.Grams / (double)first.Grams) / days : null;
    }
}
