using CaptureAgent.Agent.Growth.Models;

namespace CaptureAgent.Agent.Growth.References;

/// <summary>Sets the shape of a group to the size of the weights at hand.</summary>
internal static class GroupSize
{
    // Grams: a parrot's sizes, with room on either side.
    private const double Least = 10;
    private const double Most = 4000;

    private const double GoldenSection = 0.618;
    private const int Steps = 40;

    /// <summary>The group's curve, led to the hatch weight of parrots of that size, whose asymptote lies nearest the weights in the logarithm: the median of what each says.</summary>
    /// <param name="weights">At least one.</param>
    public static PublishedCurve Fitted(GroupShape group, IReadOnlyCollection<ReferenceWeight> weights)
    {
        // Tens of thousands of weights are of the same few dozen ages: the curve is worked out once for each.
        var ages = weights.GroupBy(weight => weight.AgeDays)
            .Select(age => (AgeDays: age.Key, Weights: age.Select(weight => (Log: Math.Log(weight.Grams), weight.Share)).ToArray())).ToArray();
        var (low, high) = (Math.Log(Least), Math.Log(Most));
        for (var i = 0; i < Steps; i++)
        {
            var (left, right) = (high - GoldenSection * (high - low), low + GoldenSection * (high - low));
            if (Distance(left) < Distance(right))
                high = right;
            else
                low = left;
        }

        return Curve((low + high) / 2);

        PublishedCurve Curve(double logAsymptote)
        {
            var asymptote = Math.Exp(logAsymptote);
            return new(GrowthModel.Logistic, group.Logistic(asymptote), double.NaN, double.NaN, HatchWeight.Of(null, asymptote));
        }

        double Distance(double logAsymptote)
        {
            var curve = Curve(logAsymptote);
            var sum = 0.0;
            foreach (var (ageDays, logs) in ages)
            {
                var expected = Math.Log(curve.Grams(ageDays));
                foreach (var (log, share) in logs)
                    sum += share * Math.Abs(log - expected);
            }

            return sum;
        }
    }
}
