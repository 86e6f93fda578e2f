using System.Globalization;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Labels;

/// <summary>What the labels of a station say.</summary>
internal static class LabelTexts
{
    public static Label Of(Chick chick) => new(
        chick.Code, chick.Code,
        [
            .. Some(chick.Species),
            .. Some(chick.Hatched is { } day ? $"hatched {day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}" : null),
            .. Some(chick.Clutch is { } clutch ? $"clutch {clutch}" : null),
            .. Some(chick.Band is { } band ? $"band {band}" : null),
        ]);

    public static Label OfBrooder(string brooder) => new(brooder, $"Brooder {brooder}", ["scan the fed card, then this:", "all chicks in it are fed"]);

    /// <summary>The sheet of command cards.</summary>
    public static IReadOnlyList<Label> Cards(CardOptions cards) =>
    [
        new(cards.Fed, "Fed", ["then the chick's card:", "it is fed now"]),
        new(cards.Reweigh, "Weigh again", ["then the chick's card:", "the new weight counts"]),
        new(cards.Undo, "Take back", ["the last that was written down", "today"]),
        new(cards.Batch, "New batch", ["a new batch of formula"]),
        new(cards.Tare, "Tare", ["what lies on the pan", "is the liner"]),
        new(cards.Check, "Check scale", ["then the check mass", "on the pan"]),
        new(cards.Ice, "Probe in ice", ["checks the probe", "in ice and water"]),
        new(cards.Boil, "Probe in steam", ["checks the probe", "in boiling water"]),
        new(cards.Reference, "Probe check", ["beside the reference", "thermometer"]),
        new(cards.Crop, "Crop full", ["then the chick's card;", "avian veterinarian, today"]),
        new(cards.Weaning, "Weaning", ["then the chick's card:", "it is being weaned"]),
        new(cards.Washed, "Washed up", ["syringes and bowls are clean"]),
        new(cards.Syringe, "New syringes", []),
        new(cards.Pan, "Pan cleaned", ["before the next clutch"]),
        new(cards.Bowls, "Fresh bowls", []),
        new(cards.Pair, "Pair", ["the device's number", "is the one that was said"]),
        .. (cards.Observations.Count > 0 ? cards.Observations : CardOptions.DefaultObservations()).Select(seen => new Label(seen.Card, char.ToUpperInvariant(seen.Kind[0]) + seen.Kind[1..].Replace('-', ' '), ["then the chick's card"])),
    ];

    private static IEnumerable<string> Some(string? text) => string.IsNullOrEmpty(text) ? [] : [text];
}
