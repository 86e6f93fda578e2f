namespace CaptureAgent.Agent.Thriving;

/// <summary>A chick's weight of one nursery day.</summary>
/// <param name="UncertaintyGrams">One standard uncertainty; null where it is not known.</param>
/// <param name="Decimals">Of the grams as a person wrote them; null for a weight that a scale sent, in which no digits can be exchanged.</param>
internal readonly record struct MorningWeight(DateOnly Day, decimal Grams, decimal? UncertaintyGrams, int? Decimals);
