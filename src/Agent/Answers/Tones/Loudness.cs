namespace CaptureAgent.Agent.Answers.Tones;

internal static class Loudness
{
    /// <summary>Root mean square of the loudest 125 ms.</summary>
    /// <param name="rate">Samples a second.</param>
    public static double LoudestEighth(ReadOnlySpan<double> samples, int rate)
    {
        var window = rate / 8;
        double sum = 0, most = 0;
        for (var i = 0; i < samples.Length; i++)
        {
            sum += samples[i] * samples[i];
            if (i >= window)
                sum -= samples[i - window] * samples[i - window];
            most = Math.Max(most, sum);
        }

        return Math.Sqrt(most / window);
    }
}
