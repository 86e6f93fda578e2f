namespace CaptureAgent.Agent.Feeding;

/// <summary>What speaks for food in a chick's crop when it was weighed, and what against it. Goes with every verdict on a settled weight.</summary>
/// <param name="FoodProbability">That more than <see cref="CropJudge.Noticeable"/> of the chick's weight is food: clock, keeper and weight together; 0 to 1.</param>
/// <param name="Basis">feed-clock, weight-and-clock, or keeper (the crop was seen full).</param>
/// <param name="HoursSinceFeed">Null: no feed is known.</param>
/// <param name="FeedsToday">Recorded this nursery day, before the weighing.</param>
/// <param name="EmptyingHours">Given to a crop of this age to empty.</param>
/// <param name="LastIntakeGrams">Taken at the last feed, where it was weighed before and after.</param>
/// <param name="ExpectedGrams">What the chick should weigh with an empty crop: its own growth, the loss of the night being part of it; null where that cannot be said.</param>
/// <param name="ExpectedDeviationGrams">One standard deviation of a morning's weight about <paramref name="ExpectedGrams"/>.</param>
/// <param name="ExcessPercent">The weight above the expected one.</param>
/// <param name="Text">In words.</param>
internal sealed record CropEvidence(
    double FoodProbability, string Basis, double? HoursSinceFeed, int FeedsToday, double EmptyingHours, decimal? LastIntakeGrams,
    decimal? ExpectedGrams, decimal? ExpectedDeviationGrams, double? ExcessPercent, string Text);
