namespace CaptureAgent.Agent.Thriving;

/// <summary>A shortfall that was told and goes on: since then the chick has gained far less than it should.</summary>
/// <remarks>
/// The course follows a chick that fails, so that a week later it falls short of nothing. What was weighed on the morning it was told does not move,
/// nor does the course as it was then. Held against these a healthy chick that was told once is back within a morning or two.
/// </remarks>
/// <param name="Since">The morning on which it was told.</param>
/// <param name="Observed">ln(grams) of that morning, the room's common shift taken off.</param>
/// <param name="Grams">As weighed that morning.</param>
/// <param name="Severity">As told then; one of <see cref="Severities"/>.</param>
/// <param name="Healthy">What the chick was to grow by, as believed that morning; its days pass, and it takes in no weights.</param>
/// <param name="Level">Of <paramref name="Healthy"/>, that morning.</param>
/// <param name="MayEnd">Growth may end any day, for all that is known of its kind.</param>
/// <param name="Days">Since then.</param>
/// <param name="Gained">Of ln(weight) since then.</param>
internal readonly record struct Lasting(DateOnly Since, double Observed, decimal Grams, string Severity, Course Healthy, double Level, bool MayEnd, int Days = 0, double Gained = 0)
{
    /// <summary>Gained less than this part of what was expected, it lasts.</summary>
    private const double Part = 0.65;

    /// <summary>What is only slow is said again so often, in days: told each morning, healthy chicks that were told once would use up the looks that others need.</summary>
    private const int SlowAgain = 3;

    /// <summary>So long a forecast is a measure.</summary>
    private const int Longest = 21;

    /// <summary>So long is red, however it was told, where so much a day was expected: no chick turns to its recession there.</summary>
    private const int RedDays = 3;

    private const double SureRate = 0.03;

    /// <summary>Gain of ln(weight) a day that was expected since then.</summary>
    public double ExpectedRate => (Healthy.Level - Level) / Math.Max(Days, 1);

    /// <summary>Loss, stall or slow, by what was weighed.</summary>
    public string Kind => FindingKinds.Of(Gained / Math.Max(Days, 1), ExpectedRate);

    /// <summary>Where the end of growth is near, so may be a recession.</summary>
    public string Urgency => Kind == FindingKinds.Slow ? Days % SlowAgain == 0 ? Severities.Look : Severities.Note
        : Days >= RedDays && ExpectedRate >= SureRate ? Severities.Red
        : ExpectedRate < ChickWatch.EndingRate && Gained > Weaning.SteepRate * Days ? Severities.Look
        : Severity;

    /// <summary>The same on a later morning; null where it is over.</summary>
    /// <param name="day">Up to which the days of <see cref="Healthy"/> have passed.</param>
    /// <param name="observed">ln(grams), the room's common shift taken off.</param>
    public Lasting? On(DateOnly day, double observed)
    {
        var on = this with { Days = day.DayNumber - Since.DayNumber, Gained = observed - Observed };
        // Growth that ends early is no shortfall: only a loss that no recession explains.
        var least = MayEnd ? Weaning.AllowedRate : Part * on.ExpectedRate;
        return on.Days <= Longest && on.Gained < least * on.Days ? on : null;
    }
}
