namespace CaptureAgent.Agent.Growth.Fitting;

/// <summary>Isolated weights that lie far off the weights before and after: of another chick, or mistyped.</summary>
internal static class StrayWeights
{
    // ln 1.4: no chick gains and loses that much within two weighings.
    private const double Far = 0.336;

    /// <summary>Adds the places of such weights. The first two and the last two are never judged: growth alone can set them apart.</summary>
    public static void Find(ReadOnlySpan<double> grams, List<int> strays)
    {
        Span<double> near = stackalloc double[5];
        for (var i = 2; i < grams.Length - 2; i++)
        {
            grams.Slice(i - 2, 5).CopyTo(near);
            near.Sort();
            if (Math.Abs(Math.Log(grams[i] / near[2])) > Far && !LiesBetween(grams[i - 1], grams[i], grams[i + 1]))
                strays.Add(i);
        }
    }

    // After a gap of days a weight may be far from the median and still on the way up.
    private static bool LiesBetween(double before, double here, double after) => before <= here && here <= after;
}
