namespace CaptureAgent.Agent.Round;

/// <summary>The known mass with which a scale is checked.</summary>
/// <param name="Grams">What it weighs.</param>
/// <param name="ToleranceGrams">Largest error that is allowed; null: one division, or the scale's accuracy where that is more.</param>
internal sealed record CheckMass(decimal Grams, decimal? ToleranceGrams);
