namespace CaptureAgent.Agent.Thriving;

/// <summary>One course of growth, read once by days of age: forecasts ask for it thousands of times.</summary>
internal sealed class GrowthRow
{
    /// <summary>Part of the final weight at which growth is over and the recession begins.</summary>
    public const double Over = 0.97;

    /// <summary>What is lost then, of ln(weight) a day, and for how long: 11 % of the peak in the middle (from the series named in reference-curves.tsv).</summary>
    private const double Recession = 0.005;

    private const int RecessionDays = 23;

    private const int LastAge = 200;

    private readonly double[] gain = new double[LastAge + 1], log = new double[LastAge + 2];

    /// <param name="form">Of <see cref="GrowthFamily"/>; one more: a reference as it is.</param>
    /// <param name="logPace">ln of the logistic's K that goes with it, per day; for a reference ln of the pace on it.</param>
    /// <param name="inflection">K times the age of inflection; for a reference the days that a chick is ahead.</param>
    /// <param name="logPart">ln of the part of the final weight, by age.</param>
    public GrowthRow(int form, double logPace, double inflection, Func<double, double> logPart)
    {
        (Form, LogPace, Inflection) = (form, logPace, inflection);
        for (var age = 0; age < log.Length; age++)
            log[age] = logPart(age);
        var over = Array.FindIndex(log, part => part >= Math.Log(Over));
        OverAt = over < 0 ? LastAge : over;
        for (var age = 0; age < gain.Length; age++)
            gain[age] = age < OverAt ? log[age + 1] - log[age] : age < OverAt + RecessionDays ? -Recession : 0;
    }

    public int Form { get; }

    public double LogPace { get; }

    public double Inflection { get; }

    /// <summary>Day of age on which growth is over.</summary>
    public int OverAt { get; }

    /// <summary>Gain of ln(weight) from a day of age to the next.</summary>
    public double Gain(int age) => gain[Math.Clamp(age, 0, LastAge)];

    /// <summary>ln of the part of the final weight that is reached.</summary>
    public double LogPart(int age) => log[Math.Clamp(age, 0, LastAge)];
}
