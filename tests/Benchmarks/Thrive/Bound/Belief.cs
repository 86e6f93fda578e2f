using CaptureAgent.Simulators.Rooms;

namespace CaptureAgent.Benchmarks.Thrive.Bound;

/// <summary>What is believed of a chick: ln(weight) without the day's noise, how far its gains wander as a share of them, and the noise.</summary>
internal readonly record struct Belief(double Level, double Own, double Noise)
{
    /// <summary>ln(weight) as a scale would show it.</summary>
    public double Seen => Level + Noise;

    public Belief Plus(in Belief gain, double by) => new(Level + gain.Level * by, Own + gain.Own * by, Noise + gain.Noise * by);
}

/// <summary>Covariance of a <see cref="Belief"/>, its terms by the first letters.</summary>
internal readonly record struct Doubt(double LL, double LO, double LN, double OO, double ON, double NN)
{
    public double OfSeen => LL + 2 * LN + NN;

    public static Doubt AtHatching(RoomConditions room) => new(ChickLaw.SizeSpread * ChickLaw.SizeSpread, 0, 0, room.OwnWander * room.OwnWander, 0, room.Noise * room.Noise);

    /// <summary>One day later.</summary>
    /// <param name="planned">The day's gain that the wandering is a share of.</param>
    public Doubt Passed(double planned, RoomConditions room)
    {
        const double Memory = RoomChick.WanderMemory;
        var (g, c) = (planned * Memory, room.Correlation);
        var fresh = room.OwnWander * room.OwnWander * (1 - Memory * Memory);
        return new Doubt(
            LL + 2 * g * LO + g * g * OO + planned * planned * fresh, Memory * (LO + g * OO) + planned * fresh, c * (LN + g * ON),
            Memory * Memory * OO + fresh, Memory * c * ON, c * c * NN + room.Noise * room.Noise * (1 - c * c));
    }

    public Belief Gain(double variance) => new((LL + LN) / variance, (LO + ON) / variance, (LN + NN) / variance);

    /// <summary>After a weight was taken in.</summary>
    public Doubt After(in Belief gain, double variance) => new(
        LL - gain.Level * gain.Level * variance, LO - gain.Level * gain.Own * variance, LN - gain.Level * gain.Noise * variance,
        OO - gain.Own * gain.Own * variance, ON - gain.Own * gain.Noise * variance, NN - gain.Noise * gain.Noise * variance);
}
