namespace CaptureAgent.Agent.Links;

/// <summary>How patiently a link connects. The values are common practice, no source.</summary>
internal sealed record LinkTimings
{
    public static LinkTimings Default { get; } = new();

    /// <summary>Before the second try; doubled, with jitter, for each further one.</summary>
    public TimeSpan FirstDelay { get; init; } = TimeSpan.FromMilliseconds(250);

    public TimeSpan LongestDelay { get; init; } = TimeSpan.FromSeconds(5);

    /// <summary>A connection that was lost sooner is a failed try: without this, a device that opens and dies at once would be opened in a tight loop.</summary>
    public TimeSpan ShortestSession { get; init; } = TimeSpan.FromSeconds(2);
}
