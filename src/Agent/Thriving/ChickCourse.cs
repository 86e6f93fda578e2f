namespace CaptureAgent.Agent.Thriving;

/// <summary>One nursery day of a chick that had a weight, or a forecast.</summary>
/// <param name="Grams">The morning weight; null on the last day if there is none yet.</param>
/// <param name="ExpectedGrams">As predicted before that weight; null for the first weight.</param>
/// <param name="LowGrams">Lower end of the 95 % predictive interval.</param>
/// <param name="HighGrams">Upper end of it.</param>
/// <param name="GainPercent">Change since the weight before, in per cent of that.</param>
/// <param name="RatePercentPerDay">The same, per day that passed.</param>
internal sealed record CoursePoint(
    DateOnly Day, int? AgeDays, double? Grams, double? ExpectedGrams, double? LowGrams, double? HighGrams, double? GainPercent, double? RatePercentPerDay);

/// <summary>A chick's growth, day by day.</summary>
/// <param name="Stage">On the last day.</param>
/// <param name="Points">Oldest first.</param>
internal sealed record ChickCourse(string Chick, Stage Stage, IReadOnlyList<CoursePoint> Points);
