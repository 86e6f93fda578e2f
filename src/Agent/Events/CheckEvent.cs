namespace CaptureAgent.Agent.Events;

/// <summary>A scale was checked with a known mass.</summary>
/// <param name="Grams">What the scale made of it, to 0.001.</param>
/// <param name="ErrorGrams"><paramref name="Grams"/> less <paramref name="ExpectedGrams"/>.</param>
/// <param name="Ok">The error is within the tolerance.</param>
internal sealed record CheckEvent(
    DateTimeOffset At, string Device, decimal Grams, decimal ExpectedGrams, decimal ErrorGrams, decimal ToleranceGrams, bool Ok, string Text) : DecisionEvent(At)
{
    public override string Name => "check";

    /// <summary>One standard uncertainty (k = 1) of the weighing of the mass.</summary>
    public decimal UncertaintyGrams { get; init; }
}
