namespace CaptureAgent.Agent.Thriving;

/// <summary>One chick of the register, as far as growth is concerned.</summary>
/// <param name="Weights">One a day, oldest first.</param>
/// <param name="Weaning">Since when it is being weaned, as a keeper's card said.</param>
/// <param name="LastFed">By hand; null: not known, or long ago.</param>
internal sealed record WatchedChick(
    string Code, string? Species, DateOnly? Hatched, string? Clutch, DateOnly? Left, IReadOnlyList<MorningWeight> Weights, DateOnly? Weaning = null, DateOnly? LastFed = null);
