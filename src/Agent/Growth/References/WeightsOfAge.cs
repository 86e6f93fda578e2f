namespace CaptureAgent.Agent.Growth.References;

/// <summary>The weights of one age: what the distribution there costs to work out is then paid once an age, not once a weight.</summary>
/// <param name="Presumed">ln of the presumed median, grams.</param>
/// <param name="First">Number of the first of the four splines that are not zero.</param>
/// <param name="Weights">ln grams, and how much each counts.</param>
/// <param name="Share">All of them together.</param>
internal sealed record WeightsOfAge(double Presumed, int First, double[] Splines, (double Log, double Share)[] Weights, double Share)
{
    public static WeightsOfAge[] Grouped(IEnumerable<ReferenceWeight> weights, ReferencePrior prior, SplineBasis basis) =>
    [
        .. from weight in weights
           group weight by weight.AgeDays into age
           let splines = new double[SplineBasis.Wide]
           let first = basis.At(age.Key, splines)
           select new WeightsOfAge(
               prior.LogMedian(age.Key), first, splines, [.. age.Select(weight => (Math.Log(weight.Grams), weight.Share))], age.Sum(weight => weight.Share)),
    ];

    public double Sum(double[] coefficients) =>
        Splines[0] * coefficients[First] + Splines[1] * coefficients[First + 1] + Splines[2] * coefficients[First + 2] + Splines[3] * coefficients[First + 3];
}
