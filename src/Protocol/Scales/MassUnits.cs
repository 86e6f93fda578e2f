namespace CaptureAgent.Protocol.Scales;

/// <summary>How units of mass are written on the wire, and their exact definitions.</summary>
/// <remarks>
/// Factors: NIST SP 811, appendix B (pound 453.59237 g, avoirdupois ounce 28.349523125 g, both exact). Written forms: common
/// practice, no source. <c>gr</c> is read as gram, as scales mean it, though elsewhere it abbreviates the grain. Refused,
/// since they are other units, ambiguous or no mass: ozt, ct, dwt, GN, t, tl, lb:oz, pieces, per cent.
/// </remarks>
public static class MassUnits
{
    private const decimal GramsPerPound = 453.59237m;
    private const decimal GramsPerOunce = 28.349523125m;

    /// <summary>Reads a unit, blanks around it and its case ignored; false for anything that is no unit of <see cref="MassUnit"/>.</summary>
    public static bool TryParse(ReadOnlySpan<byte> text, out MassUnit unit)
    {
        text = text.Trim((byte)' ');
        unit = text.Length switch
        {
            1 when Lower(text[0]) == 'g' => MassUnit.Gram,
            2 => (Lower(text[0]), Lower(text[1])) switch
            {
                ('k', 'g') => MassUnit.Kilogram,
                ('m', 'g') => MassUnit.Milligram,
                ('o', 'z') => MassUnit.Ounce,
                ('l', 'b') => MassUnit.Pound,
                ('g', 'r' or 'm') => MassUnit.Gram,
                _ => MassUnit.None,
            },
            3 => (Lower(text[0]), Lower(text[1]), Lower(text[2])) switch
            {
                ('g', 'm', 's') or ('g', 'r', 'm') => MassUnit.Gram,
                ('l', 'b', 's') => MassUnit.Pound,
                _ => MassUnit.None,
            },
            _ => MassUnit.None,
        };
        return unit != MassUnit.None;
    }

    /// <summary>Grams in one of the unit, exactly.</summary>
    public static decimal GramsPer(MassUnit unit) => unit switch
    {
        MassUnit.Gram => 1m,
        MassUnit.Kilogram => 1000m,
        MassUnit.Milligram => 0.001m,
        MassUnit.Ounce => GramsPerOunce,
        MassUnit.Pound => GramsPerPound,
        _ => throw new ArgumentOutOfRangeException(nameof(unit), unit, "A value without a unit has no mass."),
    };

    /// <summary>The value in grams, exact for every value that a decoder gives. The decimals of the result are not those of
    /// the scale: see <see cref="StepGrams"/>.</summary>
    public static decimal ToGrams(decimal value, MassUnit unit) => value * GramsPer(unit);

    /// <summary>One step of the last digit shown, in grams: 1.20 kg gives 10 g.</summary>
    public static decimal StepGrams(decimal value, MassUnit unit) =>
        new decimal(1, 0, 0, isNegative: false, scale: value.Scale) * GramsPer(unit);

    private static char Lower(byte c) => (char)(c | 0x20);
}
