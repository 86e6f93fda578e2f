using CaptureAgent.Simulators.Rooms;

namespace CaptureAgent.Benchmarks.Thrive.Bound;

/// <summary>A simulated chick as one sees it who takes it to grow by a certain law, and must learn from its weights how heavy it is and how it wanders.</summary>
/// <remarks>
/// If the law is right, the Kalman filter of it foretells as well as anyone can by the chick's weights; what something that goes wrong does to its innovations is
/// known (Willsky and Jones 1976, from memory). A fault is linear in what it takes of each day's gain and what besides, so that two signatures serve all.
/// </remarks>
internal sealed class PossibleChick
{
    /// <summary>Onsets looked back on, in days; beyond them an older one is told as late.</summary>
    private const int Longest = 8;

    private readonly RoomConditions conditions;
    private readonly ChickLaw law;
    private readonly Day[] days = new Day[Longest];
    private int age, passed;
    private Belief belief;
    private Doubt doubt;

    /// <param name="age">On the day of the first weight.</param>
    public PossibleChick(RoomConditions conditions, ChickLaw law, int age)
    {
        (this.conditions, this.law) = (conditions, law);
        belief = new Belief(law.LogHatched, 0, 0);
        doubt = Doubt.AtHatching(conditions);
        while (this.age < age)
            Pass();
        passed = 0;
    }

    /// <summary>ln of it, by the weights so far.</summary>
    public double LogLikelihood { get; private set; }

    public void Pass()
    {
        age++;
        passed++;
        var gain = law.Gain(age);
        var wandering = Wandering(age, gain);
        belief = Passed(belief, wandering);
        belief = belief with { Level = belief.Level + gain };
        doubt = doubt.Passed(wandering, conditions);
        days[age % Longest] = new Day(gain);
    }

    /// <summary>Of ln(weight) as a scale will show it.</summary>
    public (double Mean, double Variance) Forecast() => (belief.Seen, doubt.OfSeen + OtherVariance(belief.Level));

    public void Take(double logGrams)
    {
        var (_, variance) = Forecast();
        var (innovation, gain) = (logGrams - belief.Seen, doubt.Gain(variance));
        belief = belief.Plus(gain, innovation);
        doubt = doubt.After(gain, variance);
        LogLikelihood -= innovation * innovation / variance / 2 + Math.Log(variance) / 2;
        days[age % Longest] = days[age % Longest] with { Innovation = innovation, Variance = variance, Filter = gain };
    }

    /// <summary>Odds of a full crop this morning against nothing wrong, and of growth that falls short since one of the last mornings; faults alike likely.</summary>
    public (double Full, double Short) Odds()
    {
        ref readonly var today = ref days[age % Longest];
        if (age < Disturbance.YoungestDays || passed == 0 || !law.IsGrowing(age))
            return (0, 0);
        var full = 0.0;
        foreach (var each in today.Gain >= Disturbance.CropGain ? Faults.FullCrops : [])
            full += Exp(each * (today.Innovation - each / 2) / today.Variance) / Faults.FullCrops.Length;
        var fallen = 0.0;
        for (var back = Math.Min(passed, Longest) - 1; today.Gain >= Disturbance.SmallestGain && back >= 0; back--)
            fallen += Departed(age - back) / Longest;
        return (full, fallen);
    }

    private static double Exp(double log) => Math.Exp(Math.Min(log, 300));

    // Since a day of age: sums of signature times innovation, and of products of signatures, over the variance.
    private double Departed(int onset)
    {
        double share = 0, besides = 0, lostShare = 0, lostBesides = 0, shares = 0, both = 0, besidess = 0;
        Belief ofShare = default, ofBesides = default;
        for (var at = onset; at <= age; at++)
        {
            ref readonly var day = ref days[at % Longest];
            lostShare -= day.Gain;
            lostBesides--;
            ofShare = Passed(ofShare, Wandering(at, day.Gain));
            ofBesides = Passed(ofBesides, Wandering(at, day.Gain));
            if (day.Variance <= 0)
                continue;
            var (first, second) = (lostShare - ofShare.Seen, lostBesides - ofBesides.Seen);
            share += first * day.Innovation / day.Variance;
            besides += second * day.Innovation / day.Variance;
            shares += first * first / day.Variance;
            both += first * second / day.Variance;
            besidess += second * second / day.Variance;
            ofShare = ofShare.Plus(day.Filter, first);
            ofBesides = ofBesides.Plus(day.Filter, second);
        }

        var ratio = 0.0;
        foreach (var (s, b, probability) in Faults.Shortfalls)
            ratio += probability * Exp(s * share + b * besides - (s * s * shares + 2 * s * b * both + b * b * besidess) / 2);
        return ratio;
    }

    // Only growth wanders.
    private double Wandering(int at, double gain) => law.IsGrowing(at) ? gain : 0;

    private Belief Passed(in Belief before, double wandering) =>
        new(before.Level + RoomChick.WanderMemory * before.Own * wandering, RoomChick.WanderMemory * before.Own, conditions.Correlation * before.Noise);

    // The room's common noise, and rounding to a division.
    private double OtherVariance(double log)
    {
        var step = conditions.Division / Math.Exp(log);
        return conditions.CommonNoise * conditions.CommonNoise + step * step / 12;
    }

    /// <param name="Gain">Of ln(weight), by the law.</param>
    private readonly record struct Day(double Gain)
    {
        public double Innovation { get; init; }

        /// <summary>Of the innovation; 0 on a day without a weight.</summary>
        public double Variance { get; init; }

        /// <summary>The filter's gain.</summary>
        public Belief Filter { get; init; }
    }
}
