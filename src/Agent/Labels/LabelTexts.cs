using System.Globalization;
using System.Text;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Labels;

/// <summary>What the labels of a station say, in one language.</summary>
internal sealed class LabelTexts
{
    private readonly Dictionary<string, string[]> texts;

    private LabelTexts(Dictionary<string, string[]> texts) => this.texts = texts;

    public IReadOnlyCollection<string> Keys => texts.Keys;

    /// <param name="language">One of <see cref="Answers.Voice.SpokenTexts.Languages"/>.</param>
    public static LabelTexts In(string language)
    {
        using var stream = typeof(LabelTexts).Assembly.GetManifestResourceStream($"labels-{language}.txt")!;
        using var reader = new StreamReader(stream, Encoding.UTF8);
        var texts = new Dictionary<string, string[]>(StringComparer.Ordinal);
        while (reader.ReadLine() is { } line)
        {
            if (line.Length > 0 && line[0] != '#' && line.Split(" = ", 2) is [var key, var text])
                texts.Add(key, text.Split(" | "));
        }

        return new(texts);
    }

    public Label Of(Chick chick) => new(
        chick.Code, chick.Code,
        [
            .. Some(chick.Species),
            .. About("hatched", chick.Hatched?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)),
            .. About("clutch", chick.Clutch),
            .. About("band", chick.Band),
        ]);

    public Label OfBrooder(string brooder) => Card("brooder", brooder, brooder);

    /// <summary>The sheet of command cards.</summary>
    public IReadOnlyList<Label> Cards(CardOptions cards) =>
    [
        Card("fed", cards.Fed),
        Card("reweigh", cards.Reweigh),
        Card("undo", cards.Undo),
        Card("batch", cards.Batch),
        Card("tare", cards.Tare),
        Card("check", cards.Check),
        Card("ice", cards.Ice),
        Card("boil", cards.Boil),
        Card("reference", cards.Reference),
        Card("crop", cards.Crop),
        Card("weaning", cards.Weaning),
        Card("washed", cards.Washed),
        Card("syringe", cards.Syringe),
        Card("pan", cards.Pan),
        Card("bowls", cards.Bowls),
        Card("pair", cards.Pair),
        .. (cards.Observations.Count > 0 ? cards.Observations : CardOptions.DefaultObservations()).Select(seen => Card(seen.Kind, seen.Card)),
    ];

    private Label Card(string key, string code, string about = "") =>
        new(code, texts[key][0].Replace("{0}", about, StringComparison.Ordinal), texts[key][1..]);

    private IEnumerable<string> About(string key, string? value) => Some(value).Select(known => texts[key][0].Replace("{0}", known, StringComparison.Ordinal));

    private static IEnumerable<string> Some(string? text) => string.IsNullOrEmpty(text) ? [] : [text];
}
