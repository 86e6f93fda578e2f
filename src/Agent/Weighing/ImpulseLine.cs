namespace CaptureAgent.Agent.Weighing;

/// <summary>The straight line through a stretch of cumulated readings: its slope is the weight.</summary>
/// <remarks>
/// The error is no SD/√n: it is set by how far the integral strays from its line (the animal's momentum), over the length of the stretch. For a line through
/// points of standard deviation s over a time T the slope is known to √12·s/T for one independent point (ordinary least squares); for white noise, whose
/// integral is a random walk, that figure is 0.82 of the slope's true error.
/// A first-order filter of delay D turns the impulse J into the integral I of its readings y by J = I + D·y, exactly: with it the tail of a step, too, is weighed.
/// </remarks>
/// <param name="Count">Readings.</param>
/// <param name="Seconds">Its length.</param>
/// <param name="Mean">Plain mean force, in grams.</param>
/// <param name="Slope">Of least squares, in grams.</param>
/// <param name="Squares">Sum of the squared residuals, (g·s)².</param>
/// <param name="Trend">Of the readings themselves, in g/s: what is left of a tail.</param>
/// <param name="Motion">Standard deviation of the readings about their trend, in grams.</param>
/// <param name="Roughness">Half the mean squared step between readings over their variance (von Neumann 1941, from memory): one less their lag-1 correlation.</param>
/// <param name="SquaredStep">Mean squared step between readings, in grams².</param>
internal readonly record struct ImpulseLine(int Count, double Seconds, double Mean, double Slope, double Squares, double Trend, double Motion, double Roughness, double SquaredStep)
{
    /// <summary>A stretch this short has no motion cycles to speak of: its plain mean strays less than the slope.</summary>
    private const double ShortSeconds = 3;

    /// <summary>Smooth motion: the ends of the stretch are known, and the error is 0.85 times the figure; rough, its force is white noise, and it is 1.25 times (both found on simulated chicks and noise).</summary>
    private const double SmoothMargin = 0.85;

    private const double RoughMargin = 1.25;

    public double Grams => Seconds < ShortSeconds ? Mean : Slope;

    /// <summary>How far the impulse strays from the line, in g·s.</summary>
    public double Strays => Math.Sqrt(Squares / Math.Max(1, Count - 2));

    /// <summary>Standard error of <see cref="Grams"/> from motion, in grams.</summary>
    public double MotionError => (SmoothMargin + Rough * (RoughMargin - SmoothMargin)) * Math.Sqrt(12) * Strays / Seconds;

    /// <summary>How far the readings are white noise: a correlation of 0.75 and more between neighbours is smooth (0), of 0.55 and less rough (1).</summary>
    public double Rough => Math.Clamp((Roughness - 0.25) / 0.2, 0, 1);

    /// <summary>The larger of the standard errors that so much straying may mean.</summary>
    public static double LargestError(double strays, double seconds) => RoughMargin * Math.Sqrt(12) * strays / seconds;
}
