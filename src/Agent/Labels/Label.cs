namespace CaptureAgent.Agent.Labels;

/// <summary>What stands on one label.</summary>
/// <param name="Code">What a scanner reads: ASCII.</param>
/// <param name="Heading">In large letters.</param>
/// <param name="Details">A few lines in small letters.</param>
internal sealed record Label(string Code, string Heading, IReadOnlyList<string> Details);
