namespace CaptureAgent.Agent.Answers.Voice;

/// <summary>Without "and" after the hundreds, with a hyphen in twenty-one to ninety-nine.</summary>
internal sealed class EnglishNumbers : INumberWords
{
    private static readonly string[] Small =
    [
        "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen",
        "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
    ];

    private static readonly string[] Tens = ["", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"];

    public string DecimalMark => "point";

    public string Minus => "minus";

    public string Cardinal(int number, bool beforeNoun) => number switch
    {
        < 20 => Small[number],
        < 100 => number % 10 == 0 ? Tens[number / 10] : $"{Tens[number / 10]}-{Small[number % 10]}",
        < 1000 => Join($"{Small[number / 100]} hundred", number % 100),
        _ => Join($"{Cardinal(number / 1000, false)} thousand", number % 1000),
    };

    private string Join(string head, int rest) => rest == 0 ? head : $"{head} {Cardinal(rest, false)}";
}
