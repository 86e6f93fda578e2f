namespace CaptureAgent.Agent.Thriving;

/// <summary>How far chicks stray from their curve, and healthy growth from its course; standard deviations, those of wandering per square root of a day.</summary>
/// <remarks>Chosen by likelihood on simulated rooms; `thrive` among the benchmarks shows what comes of them.</remarks>
/// <param name="RateFloor">Wandering of the growth rate, per day.</param>
/// <param name="RateShare">The same, as a share of the expected rate.</param>
/// <param name="Lasting">What is left of the rate's deviation a day later.</param>
/// <param name="LevelJump">Wandering of ln(weight), for good.</param>
/// <param name="AheadSpread">Days by which a chick is ahead of its age on a reference.</param>
/// <param name="PaceSpread">ln of a chick's pace on it.</param>
/// <param name="SizeSpread">ln of its size beside it, at the first weight.</param>
/// <param name="HatchlingJump">Of ln(weight) on the first days, while yolk is used up.</param>
internal readonly record struct Tuning(
    double RateFloor, double RateShare, double Lasting, double LevelJump, double AheadSpread, double PaceSpread, double SizeSpread, double HatchlingJump)
{
    /// <summary>First days, while yolk is used up (common practice, no source).</summary>
    public const double HatchlingDays = 2;

    public static Tuning Usual { get; } = new(0.0009, 0.02, 0.9, 0.001, 0.9, 0.14, 0.15, 0.01);
}
