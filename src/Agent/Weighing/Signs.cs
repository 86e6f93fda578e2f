namespace CaptureAgent.Agent.Weighing;

/// <summary>What a level shows, as numbers that do not depend on how heavy the animal is: shares of the acceptance band or of the weight, seconds, counts.</summary>
/// <remarks>What is not known (a level before this one, a spread of fewer than two means) is <see cref="None"/>. All are what <see cref="WrongChance"/> weighs.</remarks>
internal sealed class Signs
{
    /// <summary>Stands for what is not known; no sign that is known has this value but by chance.</summary>
    public const float None = -1;

    /// <summary>In the order of <see cref="Values"/>.</summary>
    public static readonly string[] Names =
    [
        "off", "distance", "allowed", "animal", "free",
        "error", "error with wander", "wander", "tare", "stretch", "rare", "motion", "rough", "trend", "halves", "division",
        "level", "stop", "level motion", "since landing", "levels", "freed",
        "before: off", "before: stop", "before: seconds", "before: motion",
        "whole", "whole scatter", "whole motion",
        "quick spread", "quick white", "quick count", "slow spread", "slow white", "slow count", "slowest spread", "slowest white", "slowest count",
        "quick favour", "slow favour", "slowest favour", "sampling",
        "stepped", "low plateau", "delay", "fastest rise", "still", "readings a second",
        "whole mean", "whole slope", "whole trend", "since arrival",
        "bursts", "highest", "roughness",
        "usual force", "usual momentum", "usual force of half", "usual momentum of half", "usual force: noise", "usual momentum: noise",
        "wandered in 1 s", "wandered in 2.5 s", "wandered in 6 s", "idle spread", "idle count",
    ];

    private readonly float[] values = new float[Names.Length];
    private int count;

    /// <summary>Empty where the newest evaluation had nothing to weigh.</summary>
    public ReadOnlySpan<float> Values => values.AsSpan(0, count);

    public bool IsComplete => count == values.Length;

    public void Clear() => count = 0;

    public Signs Add(double value)
    {
        values[count++] = double.IsNaN(value) ? None : (float)value;
        return this;
    }

    public Signs Add(bool value) => Add(value ? 1 : 0);

    public Signs Add(in Wander wander, double band) => Add(wander.Spread / band).Add(wander.White / band).Add(wander.Count);
}
