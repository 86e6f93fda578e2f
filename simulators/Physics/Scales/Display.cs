namespace CaptureAgent.Simulators.Physics.Scales;

/// <summary>Rounds to the division that the display has in a unit.</summary>
internal static class Display
{
    /// <summary>Grams in one unit: exact definitions, NIST SP 811.</summary>
    public static decimal GramsIn(DisplayUnit unit) => unit switch
    {
        DisplayUnit.Gram => 1m,
        DisplayUnit.Kilogram => 1000m,
        DisplayUnit.Ounce => 28.349523125m,
        DisplayUnit.Pound => 453.59237m,
        _ => throw new ArgumentOutOfRangeException(nameof(unit)),
    };

    /// <summary>The division in the unit: the gram's own where the ratio is a power of ten, else the next lower of 1, 2, 5 × 10^k.</summary>
    public static decimal DivisionIn(DisplayUnit unit, decimal divisionGrams)
    {
        var exact = divisionGrams / GramsIn(unit);
        if (unit is DisplayUnit.Gram or DisplayUnit.Kilogram)
            return exact;
        var power = 1m;
        while (power > exact)
            power /= 10;
        return exact >= 5 * power ? 5 * power : exact >= 2 * power ? 2 * power : power;
    }

    /// <summary>Halves go away from zero; the digits are those of the division.</summary>
    public static decimal Round(double grams, DisplayUnit unit, decimal division)
    {
        var count = Math.Round(grams / (double)GramsIn(unit) / (double)division, MidpointRounding.AwayFromZero);
        return (decimal)count * division;
    }
}
