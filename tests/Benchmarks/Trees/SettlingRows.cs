using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Weighing;
using CaptureAgent.Benchmarks.Settle;
using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Physics.Placings;
using Placing = CaptureAgent.Simulators.Physics.Placings.Placing;

namespace CaptureAgent.Benchmarks.Trees;

/// <summary>What an evaluation showed, and whether its weight would have been a wrong record.</summary>
internal sealed class SettlingRow
{
    public required float[] Signs { get; init; }

    public required bool Wrong { get; init; }
}

/// <summary>Evaluations of simulated placings.</summary>
internal static class SettlingRows
{
    /// <summary>Neighbouring evaluations are much alike, and late ones are many: of those within some seconds of the landing, and of later ones, this share.</summary>
    private const double Soon = 0.7;

    private const double Late = 0.25;

    private const double SoonSeconds = 12;

    /// <summary>Something else than the weight decides on them.</summary>
    private static readonly string[] Other =
        ["two chicks at once", "overload", "power lost under load", "unit switched under load", "tub lifted out and put back", "lifted too early"];

    /// <summary>So many chicks are further off what is expected than the benchmark's are, by so much (standard deviation of the ratio's logarithm): one that loses, one whose course is not known yet.</summary>
    private const double FurtherOff = 0.1;

    private const double Further = 0.07;

    /// <summary>So many are of other chicks, hands and scales than the benchmark draws.</summary>
    private const double Varied = 0.5;

    /// <summary>So many are by a keeper in a hurry.</summary>
    private const double Hasty = 0.4;

    /// <summary>Of so many it is known how they moved on earlier mornings.</summary>
    private const double Known = 0.35;

    private static readonly int SinceLanding = Array.IndexOf(Signs.Names, "since landing");

    /// <param name="isPlain">All are made plain; else half are varied.</param>
    public static List<SettlingRow> Of(int placings, ulong seed, bool isPlain)
    {
        var drawn = Trials.Draw(placings, seed, null).Where(each => !Other.Contains(each.Placing.Family)).ToArray();
        var rows = new List<SettlingRow>[drawn.Length];
        // Else a run of minutes gets more and more threads.
        Parallel.For(0, drawn.Length, new() { MaxDegreeOfParallelism = Environment.ProcessorCount }, i => rows[i] = Of(drawn[i].Placing, seed + (ulong)drawn[i].Number, isPlain));
        return [.. rows.SelectMany(each => each)];
    }

    private static List<SettlingRow> Of(Placing placing, ulong seed, bool isPlain)
    {
        List<SettlingRow> rows = [];
        var random = new SeededRandom(seed);
        if (random.Chance(Hasty))
            placing = HastyHands.Hasten(placing);
        if (isPlain)
            placing = VariedPlacings.MakePlain(placing, random);
        else if (random.Chance(Varied))
            placing = VariedPlacings.Vary(placing, random);
        MotionMemory? motions = null;
        if (random.Chance(Known))
            (placing, motions) = EarlierMornings.Of(placing, random);
        var truth = placing.Truth;
        var expected = random.Chance(FurtherOff) ? truth.NetGrams * Math.Exp(Further * random.Normal()) : placing.ExpectedGrams;
        var band = truth.Band(placing.Scale.DivisionGrams);
        PlayedStation.Events(placing with { ExpectedGrams = expected }, [.. placing.Readings()], motions, () => new WatchedSettler((grams, signs) =>
        {
            if (random.Chance(signs[SinceLanding] > SoonSeconds ? Late : Soon))
                rows.Add(new SettlingRow { Signs = [.. signs], Wrong = !(truth.MustRecord || truth.MayRecord) || !(Math.Abs(grams - truth.NetGrams) <= band) });
        }));
        return rows;
    }
}
