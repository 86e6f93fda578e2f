namespace CaptureAgent.Agent.Thriving;

/// <summary>Two chicks that were taken for each other: each has the other's weight.</summary>
internal static class Exchange
{
    /// <summary>Log likelihood ratio for mates: e^5 = 150 to 1.</summary>
    private const double Mates = 5;

    /// <summary>For any two chicks of the room, of which there are many more.</summary>
    private const double Strangers = 12;

    /// <summary>An exchange leaves two ordinary residuals behind: without this, two odd weights would always fit something.</summary>
    private const double FarMates = 3.5, FarStrangers = 3;

    /// <summary>An exchange makes both weights odd. In a whole room there is always one that is a little high and fits a chick that fails: that is no exchange.</summary>
    private const double OddMates = 1.5, OddStrangers = 2.5;

    /// <summary>A chick that fell short before today is low for its own reasons: its weight speaks for an exchange no more than this, in squared deviations.</summary>
    private const double Failing = 2;

    /// <summary>Weights that are explained by their own digits are left to that.</summary>
    /// <param name="morning">Those that have a weight and a forecast.</param>
    /// <returns>The pairs, likeliest first; no chick in two of them.</returns>
    public static List<(ChickMorning A, ChickMorning B)> Find(IReadOnlyList<ChickMorning> morning)
    {
        var odd = morning.Where(each => Math.Abs(each.Z) > OddMates).ToList();
        List<(double Ratio, ChickMorning A, ChickMorning B)> pairs = [];
        for (var i = 0; i < odd.Count; i++)
        {
            for (var j = 0; j < i; j++)
            {
                if (odd[i].Z * odd[j].Z >= 0)
                    continue;
                var isMate = odd[i].Watch.Clutch is { } clutch && clutch == odd[j].Watch.Clutch;
                if (!isMate && Math.Min(Math.Abs(odd[i].Z), Math.Abs(odd[j].Z)) < OddStrangers || AreDigits(odd[i], odd[j], isMate))
                    continue;
                var ratio = Ratio(odd[i], odd[j], isMate ? FarMates : FarStrangers);
                if (ratio > (isMate ? Mates : Strangers))
                    pairs.Add((ratio, odd[i], odd[j]));
            }
        }

        HashSet<ChickMorning> taken = [];
        return [.. pairs.OrderByDescending(pair => pair.Ratio)
            .Where(pair => !taken.Contains(pair.A) && !taken.Contains(pair.B) && taken.Add(pair.A) && taken.Add(pair.B))
            .Select(pair => (pair.A, pair.B))];
    }

    // Each of the two weights is explained by its own digits; of mates, at least as well as by an exchange.
    private static bool AreDigits(ChickMorning a, ChickMorning b, bool areMates) =>
        a.OtherReading() is { } first && b.OtherReading() is { } second &&
        (!areMates || Square(Deviations(a, Math.Log(first.Grams))) + Square(Deviations(b, Math.Log(second.Grams))) <= Square(Deviations(a, b.Observed)) + Square(Deviations(b, a.Observed)));

    private static double Deviations(ChickMorning each, double observed) => (observed - each.Expected) / each.Deviation;

    private static double Square(double value) => value * value;

    // ln of the likelihood with the weights exchanged over that of the weights as they stand.
    private static double Ratio(ChickMorning a, ChickMorning b, double far)
    {
        var (za, zb) = (Deviations(a, b.Observed), Deviations(b, a.Observed));
        if (Math.Abs(za) > far || Math.Abs(zb) > far)
            return double.NegativeInfinity;
        return (Oddness(a) + Oddness(b) - za * za - zb * zb) / 2;
    }

    private static double Oddness(ChickMorning each) => each.Z < 0 && each.Watch.Shortfall.LogRatio > 0 ? Math.Min(each.Z * each.Z, Failing) : each.Z * each.Z;
}
