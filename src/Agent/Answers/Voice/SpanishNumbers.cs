namespace CaptureAgent.Agent.Answers.Voice;

/// <summary>
/// One word up to <c>treinta</c>, then tens and units with <c>y</c>; <c>uno</c> loses its o before a masculine noun and before
/// <c>mil</c> (veintiún gramos, treinta y un mil), not before the decimals. After the Real Academia Española's rules of cardinals.
/// </summary>
/// <param name="mark">coma or punto: the Academy allows both, by country.</param>
internal sealed class SpanishNumbers(string mark = "coma") : INumberWords
{
    private static readonly string[] Small =
    [
        "cero", "uno", "dos", "tres", "cuatro", "cinco", "seis", "siete", "ocho", "nueve", "diez", "once", "doce", "trece", "catorce", "quince",
        "dieciséis", "diecisiete", "dieciocho", "diecinueve", "veinte", "veintiuno", "veintidós", "veintitrés", "veinticuatro", "veinticinco",
        "veintiséis", "veintisiete", "veintiocho", "veintinueve",
    ];

    private static readonly string[] Tens = ["", "", "", "treinta", "cuarenta", "cincuenta", "sesenta", "setenta", "ochenta", "noventa"];

    private static readonly string[] Hundreds =
        ["", "ciento", "doscientos", "trescientos", "cuatrocientos", "quinientos", "seiscientos", "setecientos", "ochocientos", "novecientos"];

    public string DecimalMark => mark;

    public string Minus => "menos";

    public string Cardinal(int number, bool beforeNoun) => number switch
    {
        1 when beforeNoun => "un",
        21 when beforeNoun => "veintiún",
        < 30 => Small[number],
        < 100 => number % 10 == 0 ? Tens[number / 10] : $"{Tens[number / 10]} y {Cardinal(number % 10, beforeNoun)}",
        100 => "cien",
        < 1000 => Join(Hundreds[number / 100], number % 100, beforeNoun),
        < 2000 => Join("mil", number % 1000, beforeNoun),
        _ => Join($"{Cardinal(number / 1000, beforeNoun: true)} mil", number % 1000, beforeNoun),
    };

    private string Join(string head, int rest, bool beforeNoun) => rest == 0 ? head : $"{head} {Cardinal(rest, beforeNoun)}";
}
