namespace CaptureAgent.Agent.Feeding;

/// <summary>A mix of formula, by weight.</summary>
/// <param name="NeededGrams">What the chicks take.</param>
/// <param name="SolidsPercent">Of dry formula in water and formula, as rounded.</param>
/// <param name="FatPercent">Of the whole, as rounded.</param>
/// <param name="FatLeftOut">Fat was set, but this scale cannot weigh so little.</param>
internal sealed record Mix(
    double NeededGrams, decimal WaterGrams, decimal FormulaGrams, decimal FatGrams, decimal SolidsPercent, decimal FatPercent, bool FatLeftOut)
{
    public decimal TotalGrams => WaterGrams + FormulaGrams + FatGrams;
}

/// <summary>How much water, dry formula and fat make so much formula, in steps that the scale can show.</summary>
/// <remarks>By weight, for spoons are 9 % off for powder and 13 % for the mix (Rosenkranz et al. 2024, Front. Nutr. 1385496, of infant formula).</remarks>
internal static class Recipe
{
    /// <summary>Rounding may change the solids by so much of themselves: a 30 % mix stays between 28.5 and 31.5 %.</summary>
    private const double LargestSolidsError = 0.05;

    /// <summary>Fat rounded to more or less than half of what was asked is not fat as it was set.</summary>
    private const double LargestFatError = 0.5;

    /// <param name="neededGrams">More than 0.</param>
    /// <param name="solidsPercent">Of dry formula in water and formula: 100 g of formula and 300 g of water are 25 %.</param>
    /// <param name="fatPercent">Of the whole mix.</param>
    /// <param name="step">Of the scale, in grams.</param>
    /// <returns>The smallest mix that is enough and near enough to the solids that were asked for.</returns>
    public static Mix For(double neededGrams, double solidsPercent, double fatPercent, decimal step)
    {
        var solids = solidsPercent / 100;
        for (var formula = step; ; formula += step)
        {
            var water = Nearest((double)formula * (1 - solids) / solids, step);
            var error = Math.Abs((double)formula / (double)(formula + water) / solids - 1);
            var fat = fatPercent > 0 ? Nearest((double)(formula + water) * fatPercent / (100 - fatPercent), step) : 0;
            if (water > 0 && error <= LargestSolidsError && (double)(formula + water + fat) >= neededGrams)
                return Of(neededGrams, water, formula, fat, fatPercent);
        }
    }

    private static Mix Of(double needed, decimal water, decimal formula, decimal fat, double fatPercent)
    {
        var wet = water + formula;
        var asked = (double)wet * fatPercent / (100 - fatPercent);
        var leftOut = fatPercent > 0 && (fat == 0 || Math.Abs((double)fat / asked - 1) > LargestFatError);
        var given = leftOut ? 0 : fat;
        return new Mix(needed, water, formula, given, Math.Round(100 * formula / wet, 1), Math.Round(100 * given / (wet + given), 1), leftOut);
    }

    private static decimal Nearest(double grams, decimal step) => Math.Round((decimal)grams / step, MidpointRounding.AwayFromZero) * step;
}
