namespace CaptureAgent.Agent.Growth.References;

/// <summary>The growth record of one chick, by day of age, rising.</summary>
internal sealed record ChickSeries(string Chick, string? Species, double[] AgeDays, double[] Grams)
{
    /// <summary>Each weight with its share: those of one chick within the window count as one together.</summary>
    public IEnumerable<ReferenceWeight> Weights(int lastAge)
    {
        // A bell of this width holds as much as the window.
        const double Width = LmsFit.WindowDays / 2.5066;
        for (var i = 0; i < AgeDays.Length; i++)
        {
            if (AgeDays[i] < 0 || AgeDays[i] > lastAge || Grams[i] <= 0)
                continue;
            var near = 0.0;
            foreach (var age in AgeDays)
                near += Math.Exp(-Math.Pow((age - AgeDays[i]) / Width, 2) / 2);
            yield return new ReferenceWeight(AgeDays[i], Grams[i], 1 / near);
        }
    }
}
