namespace CaptureAgent.Agent.Thriving;

/// <summary>Growth of a chick whose species no curve knows: from its age and its weight.</summary>
/// <remarks>
/// Logistic with K = 0.489 A^-0.231 per day (A in grams; scatter a factor of 1.29) and K times the age of the inflection = 2.84 (quartiles 2.5 to 3.1):
/// fitted to the 48 published series behind reference-curves.tsv. The one A is taken that gives the chick's weight at its age.
/// </remarks>
internal static class Unlisted
{
    private const double Smallest = 15, Largest = 3000;

    private const double InflectionProduct = 2.84;

    public static double RateConstant(double finalGrams) => 0.489 * Math.Pow(finalGrams, -0.231);

    public static double GramsAt(double finalGrams, double ageDays) =>
        finalGrams / (1 + Math.Exp(InflectionProduct - RateConstant(finalGrams) * ageDays));

    /// <summary>The part of its final weight that a chick of this age and weight has reached.</summary>
    public static double PartOfFinal(double ageDays, double grams) => grams / FinalGrams(ageDays, grams);

    /// <summary>The final weight of the curve that goes through this weight at this age.</summary>
    public static double FinalGrams(double ageDays, double grams)
    {
        var (low, high) = (Math.Log(Smallest), Math.Log(Largest));
        for (var i = 0; i < 30; i++)
        {
            var middle = (low + high) / 2;
            if (GramsAt(Math.Exp(middle), ageDays) < grams)
                low = middle;
            else
                high = middle;
        }

        return Math.Exp(high);
    }
}
