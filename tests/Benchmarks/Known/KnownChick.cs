using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Physics.Chicks;
using CaptureAgent.Simulators.Physics.Pan;
using CaptureAgent.Simulators.Physics.Placings;
using CaptureAgent.Simulators.Physics.Scales;
using Placing = CaptureAgent.Simulators.Physics.Placings.Placing;

namespace CaptureAgent.Benchmarks.Known;

/// <summary>One simulated chick that is weighed on several mornings at one station, and what may happen on any of them.</summary>
/// <param name="grams">On the first morning.</param>
/// <param name="temperament">Its own; each morning it is somewhat livelier or stiller.</param>
internal sealed class KnownChick(SeededRandom random, double grams, Temperament temperament, ScaleSpecification scale)
{
    /// <summary>What happens, with its weight in the draw.</summary>
    public static IReadOnlyList<(string Name, double Weight)> Kinds { get; } =
    [
        ("set down and let go at once", 35), ("lowered, held and let go", 24), ("still hand near the weight, then let go", 10),
        ("trembling hand near the weight, then let go", 10), ("still hand, then let go", 5), ("hand comes back after a short stay", 8),
        ("never let go, near the weight", 5), ("asleep today", 3),
    ];

    public string Temper => temperament.Name;

    /// <param name="morning">Counted from 0.</param>
    /// <param name="kind">One of <see cref="Kinds"/>.</param>
    public Placing On(int morning, string kind, ulong seed)
    {
        var awake = Mornings.InMood(temperament, random);
        var today = kind == "asleep today" ? Temperament.Sleeper(random) : awake;
        var draft = new PlacingDraft(random, grams * Math.Pow(Mornings.Growth, morning), today, scale).LayLiner();
        return kind switch
        {
            "still hand near the weight, then let go" => Finish(draft.Lower(Near(), random.Between(2, 5), random.LogBetween(0.0002, 0.001)).LetGo(), kind, seed),
            "trembling hand near the weight, then let go" => Finish(Trembling(draft).LetGo(), kind, seed),
            "still hand, then let go" => Finish(draft.Lower(random.Between(0.15, 0.6), random.Between(2, 5), random.LogBetween(0.0002, 0.001)).LetGo(), kind, seed),
            "hand comes back after a short stay" => draft.Lower().LetGo(random.Between(1.5, 5))
                .Return(random.Pick(-1, 1) * random.Between(0.02, 0.3), random.Between(4, 10), random.LogBetween(0.0003, 0.003)).Lift().Build(kind, seed, mustRecord: false, mayRecord: true),
            "never let go, near the weight" => draft.Lower(random.Pick(-1, 1) * random.Between(0.01, 0.06), random.Between(3, 12), random.LogBetween(0.0005, 0.02)).Lift()
                .Build(kind, seed, mustRecord: false, mayRecord: false),
            "lowered, held and let go" => Finish(draft.Lower().LetGo(), kind, seed),
            _ => Finish(draft.Lower(0, 0, 0).LetGo(), kind, seed),
        };
    }

    private double Near() => random.Pick(-1, 1) * random.Between(0.008, 0.03);

    private PlacingDraft Trembling(PlacingDraft draft)
    {
        var from = draft.Now;
        draft.Lower(Near(), random.Between(2, 5), random.LogBetween(0.0002, 0.003));
        return draft.Add(Mornings.Tremor(from, draft.Now - from, draft.ChickGrams, random));
    }

    private Placing Finish(PlacingDraft draft, string kind, ulong seed) =>
        draft.Return(random.Between(-0.15, 0.5), random.Between(0.3, 2), random.LogBetween(0.004, 0.05)).Lift().Build(kind, seed, mustRecord: true, mayRecord: true);
}
