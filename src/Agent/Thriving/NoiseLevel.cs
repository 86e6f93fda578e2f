namespace CaptureAgent.Agent.Thriving;

/// <summary>How far one morning's weight strays from the chick's smooth course, for reasons that are not growth.</summary>
/// <param name="Deviation">Standard deviation of the day-to-day noise in ln(weight).</param>
/// <param name="Correlation">From one day to the next.</param>
internal readonly record struct NoiseLevel(double Deviation, double Correlation)
{
    /// <summary>2 % is the middle of the residuals of seven dense hand-reared series (1.0 to 2.8 %; digitised from the papers in reference-curves.tsv).</summary>
    public static NoiseLevel Usual { get; } = new(0.02, 0.4);
}
