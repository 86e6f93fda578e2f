namespace CaptureAgent.Agent.Weighing;

/// <summary>What lies still on the pan: the bare pan, or a liner. Its level is the tare.</summary>
/// <param name="Since">Seconds at which it was first seen still.</param>
/// <param name="Grams">Reading, in grams; negative where the scale was tared with something on it.</param>
/// <param name="Uncertainty">Standard uncertainty of the level from noise, in grams.</param>
/// <param name="Lined">Something lies on the pan, or the scale was tared with it.</param>
internal sealed record Rest(double Since, double Grams, double Uncertainty, bool Lined)
{
    /// <summary>Seconds that its level is of: the middle of the readings from which it was taken, so that a zero that creeps makes no other of it.</summary>
    public double Moment { get; init; } = Since;

    /// <summary>Set while a still load on a bare pan is only presumed to be the liner; it may have been presumed of what lay under it too.</summary>
    public Rest? Bare { get; init; }

    /// <summary>Grams of what is only presumed to be the liner; 0 where nothing is presumed.</summary>
    public double PresumedGrams => Bare is { } bare ? Grams - bare.Grams : 0;

    /// <summary>The same, presumed no longer.</summary>
    public Rest Certain => Bare is null ? this : this with { Bare = null };

    /// <summary>Grams of it that came onto the liner while a code waited; 0 if none did.</summary>
    public double Laid { get; init; }
}
