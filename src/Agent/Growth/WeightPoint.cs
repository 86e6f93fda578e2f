namespace CaptureAgent.Agent.Growth;

/// <summary>One weight of a chick's growth record, seen beside the one before it and the reference.</summary>
/// <param name="AgeDays">Day of age; without a hatch date the days since the first weight.</param>
/// <param name="GainPercent">Change since the weight before, in per cent of that.</param>
/// <param name="RatePercent">The same a day, over the days that passed.</param>
/// <param name="Z">Standard deviations from the reference's median; null where it tells nothing.</param>
/// <param name="Centile">The per cent of the reference's chicks that are lighter.</param>
internal sealed record WeightPoint(DateOnly Day, int AgeDays, double Grams, double? GainPercent, double? RatePercent, double? Z, double? Centile);
