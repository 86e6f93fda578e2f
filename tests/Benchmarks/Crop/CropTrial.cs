using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Round;
using CaptureAgent.Simulators.Physics;

namespace CaptureAgent.Benchmarks.Crop;

/// <summary>A kind of nursery.</summary>
/// <param name="Scatter">SD of a morning's ln weight about the chick's curve.</param>
/// <param name="Correlation">Of one morning's scatter with the next one's.</param>
/// <param name="Missed">Share of mornings without a weight.</param>
/// <param name="SpeciesKnown">The register names the species.</param>
internal sealed record Nursery(string Name, double Scatter, double Correlation, double Missed, int YoungestAge, int OldestAge, int HistoryDays, bool SpeciesKnown = true);

/// <summary>One morning of one chick, three times over: unfed, with the smallest feed in its crop, and with an ordinary one; no feed was recorded.</summary>
/// <param name="Excess">ln of the unfed weight over what was expected; NaN where nothing was.</param>
/// <param name="Plain">ln of the unfed weight over the trend of the last four weights, on which the baselines stand.</param>
/// <param name="OrdinaryFill">Of body weight.</param>
internal sealed record CropTrial(WeighingEvent Unfed, WeighingEvent Smallest, WeighingEvent Ordinary, double Excess, double Plain, double OrdinaryFill)
{
    public const double SmallestFill = 0.08, LargestFill = 0.12;

    public static CropTrial[] Run(Nursery nursery, int count, ulong seed)
    {
        var random = new SeededRandom(seed);
        var seeds = Enumerable.Range(0, count).Select(_ => random.NextUInt64()).ToArray();
        var trials = new CropTrial[count];
        Parallel.For(0, count, i => trials[i] = Run(nursery, new SeededRandom(seeds[i])));
        return trials;
    }

    private static CropTrial Run(Nursery nursery, SeededRandom random)
    {
        var age = nursery.YoungestAge + (int)(random.Unit() * (nursery.OldestAge + 1 - nursery.YoungestAge));
        var chick = new SimulatedChick(random, nursery.Scatter, nursery.Correlation, age);
        var before = chick.Mornings.Take(age)
            .Select((grams, day) => day < age - nursery.HistoryDays || day < age - 1 && random.Chance(nursery.Missed) ? double.NaN : grams).ToArray();
        var (grams, fill) = (chick.Mornings[age], random.Between(SmallestFill, LargestFill));
        var species = nursery.SpeciesKnown ? chick.Species : null;
        var unfed = PlayedMorning.Weigh(before, grams, species, random.NextUInt64());
        var excess = unfed.Crop is { ExpectedGrams: { } expected } ? Math.Log(grams / (double)expected) : double.NaN;
        return new CropTrial(
            unfed, PlayedMorning.Weigh(before, grams * (1 + SmallestFill), species, random.NextUInt64()), PlayedMorning.Weigh(before, grams * (1 + fill), species, random.NextUInt64()),
            excess, Math.Log(grams / Trend(before)), fill);
    }

    // What a keeper with a pencil expects: the mean daily ratio of the last four weights goes on.
    private static double Trend(double[] before)
    {
        var known = before.Select((grams, day) => (Grams: grams, Day: day)).Where(morning => !double.IsNaN(morning.Grams)).TakeLast(4).ToArray();
        var (first, last) = (known[0], known[^1]);
        var daily = known.Length < 2 ? 0 : Math.Log(last.Grams / first.Grams) / (last.Day - first.Day);
        return last.Grams * Math.Exp(daily * (before.Length - last.Day));
    }
}
