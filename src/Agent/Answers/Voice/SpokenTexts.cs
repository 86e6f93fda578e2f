using System.Text;
using System.Text.RegularExpressions;

namespace CaptureAgent.Agent.Answers.Voice;

/// <summary>The sentences of one language, from the file that lies in the program.</summary>
internal sealed partial class SpokenTexts
{
    private readonly Dictionary<string, string> sentences;

    private readonly INumberWords words;

    private SpokenTexts(Dictionary<string, string> sentences, INumberWords words) => (this.sentences, this.words) = (sentences, words);

    /// <summary>ISO 639-1 codes.</summary>
    public static IReadOnlyList<string> Languages { get; } = ["en", "es"];

    public IReadOnlyCollection<string> Keys => sentences.Keys;

    /// <param name="language">One of <see cref="Languages"/>.</param>
    public static SpokenTexts In(string language)
    {
        using var stream = typeof(SpokenTexts).Assembly.GetManifestResourceStream($"spoken-{language}.txt")!;
        using var reader = new StreamReader(stream, Encoding.UTF8);
        var sentences = new Dictionary<string, string>(StringComparer.Ordinal);
        while (reader.ReadLine() is { } line)
        {
            if (line.Length > 0 && line[0] != '#' && line.Split(" = ", 2) is [var key, var sentence])
                sentences.Add(key, sentence);
        }

        return new(sentences, language == "es" ? new SpanishNumbers() : new EnglishNumbers());
    }

    public string Of(Saying said)
    {
        var text = Fill(Sentence(said.Key), said);
        foreach (var reason in said.Reasons)
            text += $". {Sentence(reason)}";
        return text;
    }

    // What has no sentence of its own has that of its group.
    private string Sentence(string key) =>
        sentences.TryGetValue(key, out var own) ? own : sentences[$"{key.Split('.')[0]}.other"];

    private string Fill(string sentence, Saying said)
    {
        var filled = Places().Replace(sentence, place => Value(place, said) is { } value ? value : "");
        var parts = filled.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        return string.Join(", ", parts);
    }

    private string? Value(Match place, Saying said)
    {
        (string, string)? noun = place.Groups["one"] is { Success: true } one ? (one.Value, place.Groups["many"].Value) : null;
        return place.Groups["name"].Value switch
        {
            "chick" => said.Chick is { } code ? SpokenNumber.Spell(words, code) : null,
            "device" => said.Device,
            "grams" => said.Grams is { } grams ? SpokenNumber.Of(words, grams, 1, noun) : null,
            "celsius" => said.Celsius is { } celsius ? SpokenNumber.Of(words, celsius, 1, noun) : null,
            "gain" => said.Gain is { } gain ? Change(gain) : null,
            var other => throw new FormatException($"There is no {{{other}}} in what is said."),
        };
    }

    // Whole grams, as a keeper says it; below one gram tenths.
    private string Change(decimal gain)
    {
        var decimals = Math.Abs(gain) < 0.95m ? 1 : 0;
        var rounded = Math.Round(gain, decimals, MidpointRounding.AwayFromZero);
        return rounded == 0
            ? sentences["same"]
            : sentences[rounded > 0 ? "up" : "down"].Replace("{number}", SpokenNumber.Of(words, Math.Abs(rounded), decimals), StringComparison.Ordinal);
    }

    [GeneratedRegex(@"\{(?<name>\w+)(\|(?<one>[^|}]+)\|(?<many>[^|}]+))?\}")]
    private static partial Regex Places();
}
