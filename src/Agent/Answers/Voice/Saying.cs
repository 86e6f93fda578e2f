namespace CaptureAgent.Agent.Answers.Voice;

/// <summary>Something to be said, in no language yet.</summary>
/// <param name="Key">Names the sentence in the texts of each language.</param>
/// <param name="Chick">Its code, spelled where the sentence has {chick}.</param>
/// <param name="Grams">A weight, where the sentence has {grams}; said to a tenth.</param>
/// <param name="Gain">Grams up or down, where it has {gain}.</param>
/// <param name="Device">The id of a device, where it has {device}.</param>
internal sealed record Saying(string Key, string? Chick = null, decimal? Grams = null, decimal? Gain = null, string? Device = null, decimal? Celsius = null)
{
    /// <summary>Sentences that follow, by their keys: the reasons of a refusal.</summary>
    public IReadOnlyList<string> Reasons { get; init; } = [];
}
