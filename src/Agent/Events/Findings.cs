namespace CaptureAgent.Agent.Events;

/// <summary>The names of findings.</summary>
internal static class Findings
{
    /// <summary>Heavier than growth explains, or seen full: is the crop not empty?</summary>
    public const string TooGood = "too-good";
}
