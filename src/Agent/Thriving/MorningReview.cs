namespace CaptureAgent.Agent.Thriving;

/// <summary>One morning of a room, as reviewed.</summary>
/// <param name="Watches">Every chick, as it stands after the morning.</param>
/// <param name="Forecasts">By code: predicted ln(grams) and its standard deviation before the morning's weights; null for a chick without a weight before.</param>
/// <param name="Judged">Chicks with a weight and a forecast.</param>
/// <param name="Slips">Weights that cannot be right, and what would explain them.</param>
/// <param name="Budget">What the morning's tests may spend.</param>
internal sealed record MorningReview(
    DateOnly Day, IReadOnlyList<ChickWatch> Watches, IReadOnlyDictionary<string, (double Expected, double Deviation)?> Forecasts,
    IReadOnlyList<ChickMorning> Judged, RoomEffect Room, IReadOnlyList<(ChickMorning Morning, string? Meant)> Slips,
    IReadOnlyList<(ChickMorning A, ChickMorning B)> Exchanged, Budget Budget);
