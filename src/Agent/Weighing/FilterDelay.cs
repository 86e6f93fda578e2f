namespace CaptureAgent.Agent.Weighing;

/// <summary>The mean delay of a scale's internal filter, from the fastest rise that it has shown.</summary>
/// <remarks>
/// A stage of time constant τ rises from 15 to 92 % in ln(0.85/0.08)·τ = 2.36 τ, two equal stages of delay D = 2τ in 3.5 τ = 1.76 D; the hand that laid the load down took
/// some 0.15 s of it. Between the two the delay is known to a sixth, and a hand's own time makes it worse.
/// </remarks>
/// <param name="Seconds">Mean delay.</param>
/// <param name="Error">Standard uncertainty of it, in seconds.</param>
internal readonly record struct FilterDelay(double Seconds, double Error)
{
    private const double HandSeconds = 0.15;

    public static FilterDelay From(double fastestRise)
    {
        if (double.IsNaN(fastestRise))
            return new FilterDelay(0.2, 0.2);
        var seconds = Math.Sqrt(Math.Max(0.0025, fastestRise * fastestRise - HandSeconds * HandSeconds)) / 2.06;
        return new FilterDelay(seconds, 0.05 + 0.3 * seconds);
    }
}
