using CaptureAgent.Simulators.Rooms;

namespace CaptureAgent.Benchmarks.Thrive.Bound;

/// <summary>A simulated chick as one sees it who knows the law it grows by, but must learn from its weights how heavy it is and how it wanders from its curve.</summary>
/// <remarks>
/// The law: its curve, its peak and recession, how far and how long it wanders, the noise and its correlation. The Kalman filter of that law foretells as well as
/// anyone can by the chick's weights; what something that goes wrong does to its innovations is known (Willsky and Jones 1976, from memory).
/// </remarks>
internal sealed class FollowedChick
{
    /// <summary>Onsets looked back on, in days; beyond them an older one is told as late.</summary>
    private const int Longest = 8;

    private readonly RoomChick chick;
    private readonly RoomConditions conditions;
    private readonly double[] foretold, variance, innovation;
    private readonly Belief[] gain;
    private readonly int first;

    public FollowedChick(RoomConditions conditions, RoomChick chick)
    {
        (this.chick, this.conditions, first) = (chick, conditions, Math.Max(chick.HatchDay, 0));
        var days = chick.Weights.Length;
        (foretold, variance, innovation, gain) = (new double[days], new double[days], new double[days], new Belief[days]);
        var belief = new Belief(Math.Log(chick.Weights.FirstOrDefault(weight => weight > 0, 1)), 0, 0);
        var doubt = Doubt.Before(conditions);
        for (var day = first; day < days; day++)
        {
            if (day > first)
            {
                belief = Passed(belief, day);
                belief = belief with { Level = belief.Level + Planned(day) };
                doubt = doubt.Passed(Wandering(day), conditions);
            }

            foretold[day] = belief.Seen;
            variance[day] = doubt.OfSeen + OtherVariance(belief.Level);
            if (chick.Weights[day] <= 0)
                continue;
            gain[day] = doubt.Gain(variance[day]);
            innovation[day] = Math.Log(chick.Weights[day]) - foretold[day];
            belief = belief.Plus(gain[day], innovation[day]);
            doubt = doubt.After(gain[day], variance[day]);
        }
    }

    /// <summary>ln(weight) expected of a day, and its standard deviation.</summary>
    public (double Mean, double Deviation) Foretell(int day) => (foretold[day], Math.Sqrt(variance[day]));

    /// <summary>ln of the likelihood ratio of a weight that is too high today by as much as any of these, alike likely, in ln(weight).</summary>
    public double Heavier(int day, ReadOnlySpan<double> by)
    {
        var ratio = 0.0;
        foreach (var each in by)
            ratio += Math.Exp(each * (innovation[day] - each / 2) / variance[day]) / by.Length;
        return Math.Log(ratio);
    }

    /// <summary>ln of the likelihood ratio of gains that are others since one of the last mornings, all alike likely.</summary>
    /// <param name="missing">Of a day's gain of ln(weight), by what it should be.</param>
    public double Departed(int day, Func<double, double> missing)
    {
        var ratio = 0.0;
        for (var onset = Math.Max(first + 1, day - Longest + 1); onset <= day; onset++)
            ratio += Math.Exp(Math.Min(Since(onset, day, missing), 300)) / Longest;
        return Math.Log(Math.Max(ratio, double.Epsilon));
    }

    private double Since(int onset, int day, Func<double, double> missing)
    {
        double ratio = 0, departed = 0;
        var believed = default(Belief);
        for (var at = onset; at <= day; at++)
        {
            departed -= missing(Planned(at));
            believed = Passed(believed, at);
            if (chick.Weights[at] <= 0)
                continue;
            var signature = departed - believed.Seen;
            ratio += signature * (innovation[at] - signature / 2) / variance[at];
            believed = believed.Plus(gain[at], signature);
        }

        return ratio;
    }

    private double Planned(int day) => chick.PlannedGain[day];

    // Only growth wanders.
    private double Wandering(int day) => day <= chick.PeakDay ? Planned(day) : 0;

    private Belief Passed(in Belief belief, int day) =>
        new(belief.Level + RoomChick.WanderMemory * belief.Own * Wandering(day), RoomChick.WanderMemory * belief.Own, conditions.Correlation * belief.Noise);

    // The room's common noise, and rounding to a division.
    private double OtherVariance(double log)
    {
        var step = conditions.Division / Math.Exp(log);
        return conditions.CommonNoise * conditions.CommonNoise + step * step / 12;
    }
}
