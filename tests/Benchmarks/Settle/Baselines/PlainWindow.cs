namespace CaptureAgent.Benchmarks.Settle.Baselines;

/// <summary>The readings from some moment up to now, of which <see cref="PlainEstimator"/> may take the mean.</summary>
/// <param name="readings">All since the load came, in grams.</param>
/// <param name="start">Where the window begins among them.</param>
/// <param name="step">In readings: how far apart the stretches before it are that it is held against.</param>
/// <param name="interval">Seconds between two readings.</param>
/// <param name="division">In grams.</param>
internal readonly ref struct PlainWindow(ReadOnlySpan<double> readings, int start, int step, double interval, double division)
{
    private const double BandShare = 0.003;

    /// <summary>Known well enough: two standard errors within this share of the band.</summary>
    private const double KnownTo = 0.8;

    private const double LightestGrams = 1, LightestDivisions = 2;

    /// <summary>Deviation times seconds by which a mean is off, over the window's seconds: what a chick's momentum can hide at both ends.</summary>
    private const double MomentumSeconds = 0.5;

    // Readings far apart tell little of what moves between them: then the error falls no faster than with the root of their number.
    private const double SparseInterval = 0.15, SparseError = 0.3, VerySparseInterval = 0.3, VerySparseError = 0.45;

    // First third against the rest, last quarter against all: apart by no more than a share of the band, or some errors.
    private const double ThirdBands = 0.28, ThirdErrors = 2.2, QuarterBands = 0.4, QuarterErrors = 2.6;
    private const int LeastPart = 2;

    // Stiller than a live chick.
    private const double StillDivisions = 0.7, StillShare = 0.0012;

    // Earlier stretches: a second each, of three readings at least.
    private const double EarlierSeconds = 1;
    private const int EarlierReadings = 3, EarlierStretches = 7;

    // A still stretch at another level before a livelier window: a hand let go in between.
    private const double HeldDeviations = 0.6, HeldBands = 1.2, HeldApart = 3;

    // A livelier stretch about the same level before a still window: a hand came back.
    private const double LivelyDeviations = 2, LivelyDivisions = 0.5, LivelyWithin = 6;

    private readonly ReadOnlySpan<double> readings = readings;
    private readonly PlainStretch all = PlainStretch.Of(readings[start..], division);

    public double Mean => all.Mean;

    public double Deviation => all.Deviation;

    public int Crossings => all.Crossings;

    public double Seconds => (readings.Length - start) * interval;

    public double Division => division;

    public double Band => BandOf(Mean, division);

    public double StandardError
    {
        get
        {
            var atRandom = Deviation / Math.Sqrt(readings.Length - start);
            var sparse = interval > VerySparseInterval ? VerySparseError * atRandom : interval > SparseInterval ? SparseError * atRandom : 0;
            return Math.Max(all.StandardError, Math.Max(MomentumSeconds * Deviation / Seconds, sparse));
        }
    }

    /// <summary>Whether the mean is known well enough, and of something.</summary>
    public bool IsKnown => Mean >= Math.Max(LightestGrams, LightestDivisions * division) && 2 * StandardError <= KnownTo * Band;

    /// <summary>Whether neither the beginning nor the end is at another level: a settling scale, or a hand that comes or goes.</summary>
    public bool IsSettled
    {
        get
        {
            var length = readings.Length - start;
            var third = start + Math.Max(LeastPart, length / 3);
            var (before, after) = (Part(start, third), Part(third, readings.Length));
            var error = Math.Sqrt((before.StandardError * before.StandardError) + (after.StandardError * after.StandardError));
            if (Math.Abs(before.Mean - after.Mean) > Math.Max(ThirdBands * Band, ThirdErrors * error))
                return false;
            var quarter = Math.Max(LeastPart, length / 4);
            var end = Part(readings.Length - quarter, readings.Length);
            return Math.Abs(end.Mean - Mean) <= Math.Max(QuarterBands * Band, QuarterErrors * Math.Max(end.StandardError, end.Deviation / Math.Sqrt(quarter)));
        }
    }

    /// <summary>The deviation of the calmer half.</summary>
    public double Calm
    {
        get
        {
            var middle = start + ((readings.Length - start) / 2);
            return Math.Min(Part(start, middle).Deviation, Part(middle, readings.Length).Deviation);
        }
    }

    public bool IsStill => Calm < Math.Max(StillDivisions * division, StillShare * Mean);

    /// <summary>What the second before looked like, or one of those that end a few steps sooner.</summary>
    /// <returns>Whether one of them was held at another level, and the largest deviation of those livelier than this window; 0: none was.</returns>
    public (bool WasHeld, double Livelier) Earlier()
    {
        var (wasHeld, livelier) = (false, 0.0);
        var length = Math.Min(start, (int)Math.Max(EarlierReadings, EarlierSeconds / interval));
        if (start <= EarlierReadings)
            return default;
        for (var i = 0; i < EarlierStretches && start - (i * step) >= length; i++)
        {
            var end = start - (i * step);
            var earlier = Part(end - length, end);
            var apart = Math.Abs(earlier.Mean - Mean);
            wasHeld |= Deviation > StillDivisions * division
                && earlier.Deviation < HeldDeviations * Deviation
                && apart > Math.Max(HeldBands * Band, HeldApart * Deviation);
            if (earlier.Deviation > LivelyDeviations * Math.Max(Deviation, LivelyDivisions * division) && apart < LivelyWithin * earlier.Deviation)
                livelier = Math.Max(livelier, earlier.Deviation);
        }

        return (wasHeld, livelier);
    }

    /// <summary>The greater of one division and 0.3 %.</summary>
    public static double BandOf(double grams, double division) => Math.Max(division, BandShare * grams);

    private PlainStretch Part(int from, int to) => PlainStretch.Of(readings[from..to], division);
}
