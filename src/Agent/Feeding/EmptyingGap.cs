using CaptureAgent.Agent.Configuration;

namespace CaptureAgent.Agent.Feeding;

/// <summary>How long after a feed a crop is not yet taken to be empty, by the chick's age.</summary>
/// <remarks>Defaults: <see cref="FeedingOptions.DefaultEmptyingGap"/>. For the last: "nearly empty in 4-6 h in all chicks" (Doneley, WSAVA 2018, p. 592);
/// the shorter gaps follow the feed intervals for the age (two hours in the first five days: Stanley in Duerr and Gage 2020, p. 616).</remarks>
internal sealed class EmptyingGap(IReadOnlyList<EmptyingStep> steps)
{
    private readonly IReadOnlyList<EmptyingStep> steps = steps.Count > 0 ? steps : [.. FeedingOptions.DefaultEmptyingGap()];

    /// <summary>The gap for an age in days; the longest where the age is not known.</summary>
    public TimeSpan For(int? ageDays)
    {
        if (ageDays is { } age)
        {
            foreach (var step in steps)
            {
                if (step.ThroughDay is not { } through || age <= through)
                    return TimeSpan.FromHours(step.Hours);
            }
        }

        return TimeSpan.FromHours(steps[^1].Hours);
    }
}
