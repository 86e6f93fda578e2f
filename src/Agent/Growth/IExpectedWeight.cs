using CaptureAgent.Agent.Round;

namespace CaptureAgent.Agent.Growth;

/// <summary>What a chick should weigh on a morning with an empty crop.</summary>
/// <param name="Grams">The likeliest weight.</param>
/// <param name="Deviation">One standard deviation of such a morning's weight about it, as a fraction: of the chick's own scatter and of what is not known of its growth.</param>
/// <param name="Mornings">Weights that it rests on.</param>
internal readonly record struct ExpectedWeight(double Grams, double Deviation, int Mornings);

/// <summary>Predicts a chick's weight from those before.</summary>
internal interface IExpectedWeight
{
    /// <param name="weights">One a day, oldest first; those of <paramref name="day"/> and later are not looked at.</param>
    /// <param name="ageDays">On <paramref name="day"/>.</param>
    /// <param name="species">As in the register; null: not known.</param>
    /// <returns>Null where there is too little to tell.</returns>
    ExpectedWeight? For(IReadOnlyList<Weight> weights, DateOnly day, int? ageDays, string? species);
}
