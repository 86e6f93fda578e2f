namespace CaptureAgent.Agent.Growth;

/// <summary>How healthy chicks of a species grow, by age; from published curves or from the nursery's own records.</summary>
internal interface IReferenceGrowth
{
    /// <param name="species">As the register has it: scientific or English name, letter case ignored.</param>
    /// <param name="ageDays">Day of age; the day of hatching is 0.</param>
    /// <returns>Null where nothing is known of the species at this age.</returns>
    ReferenceGrowth? At(string? species, double ageDays);
}

/// <summary>Healthy growth at one age.</summary>
/// <param name="Grams">Middle weight.</param>
/// <param name="Spread">Standard deviation between chicks of the natural logarithm of weight.</param>
/// <param name="Rate">Middle growth rate d ln(weight)/dt, per day.</param>
/// <param name="RateSpread">Standard deviation between chicks of that rate, per day.</param>
/// <param name="PeakGrams">Weight at which growth ends.</param>
/// <param name="RateDecay">-d ln(rate)/dt, per day: how fast the rate itself declines at this age.</param>
internal readonly record struct ReferenceGrowth(double Grams, double Spread, double Rate, double RateSpread, double PeakGrams, double RateDecay);
