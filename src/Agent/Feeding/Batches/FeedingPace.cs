namespace CaptureAgent.Agent.Feeding.Batches;

/// <summary>How fast chicks are fed today: the median time from one feed to the next, pauses left out.</summary>
internal sealed class FeedingPace
{
    private const int Kept = 20, Fewest = 3;

    /// <summary>A longer time between two feeds is a pause.</summary>
    private static readonly TimeSpan Pause = TimeSpan.FromMinutes(5);

    private readonly Queue<TimeSpan> gaps = [];
    private DateTimeOffset? last;
    private DateOnly day;

    public void Fed(DateTimeOffset at, DateOnly today)
    {
        if (today != day)
            gaps.Clear();
        day = today;
        if (last is { } before && at > before && at - before <= Pause)
            gaps.Enqueue(at - before);
        if (gaps.Count > Kept)
            gaps.Dequeue();
        last = at;
    }

    /// <summary>How many chicks can be fed in so much time; null before three have shown the pace.</summary>
    public int? ChicksIn(TimeSpan time) =>
        gaps.Count < Fewest ? null : (int)Math.Max(0, Math.Floor(time / gaps.Order().ElementAt(gaps.Count / 2)));
}
