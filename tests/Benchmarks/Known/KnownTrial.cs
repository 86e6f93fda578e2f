using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Round;
using CaptureAgent.Benchmarks.Settle;
using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Physics.Chicks;
using CaptureAgent.Simulators.Physics.Placings;
using CaptureAgent.Simulators.Physics.Scales;
using CaptureAgent.Store;
using Placing = CaptureAgent.Simulators.Physics.Placings.Placing;

namespace CaptureAgent.Benchmarks.Known;

/// <summary>One placing of a known chick, played twice to the real core.</summary>
/// <param name="Without">What was accepted where nothing of its earlier mornings' motion is known; null: nothing.</param>
/// <param name="With">And where it is.</param>
internal sealed record KnownTrial(Placing Placing, string Temper, Answer? Without, Answer? With)
{
    private const int Taught = 5;

    /// <summary>Mornings that are judged, each of another kind, none taught to the next.</summary>
    private const int Judged = 6;

    private const int Chicks = 8;

    public double Seconds(Answer answer) => answer.At - Placing.Truth.HandsOffAt;

    public bool IsRight(Answer? answer) =>
        answer is { } said && (Placing.Truth.MustRecord || Placing.Truth.MayRecord) && Math.Abs(said.Grams - Placing.Truth.NetGrams) <= Placing.Truth.Band(Placing.Scale.DivisionGrams);

    public bool IsWrong(Answer? answer) => answer is not null && !IsRight(answer);

    public bool IsMissed(Answer? answer) => answer is null && Placing.Truth.MustRecord;

    /// <summary>One station with one scale and its chicks: first the mornings that teach, then those that are judged.</summary>
    public static IEnumerable<KnownTrial> Station(ulong seed)
    {
        var random = new SeededRandom(seed);
        var middle = random.LogBetween(25, 800);
        var scale = new PlacingDraft(random, middle, Temperament.Calm(random)).Scale;
        List<KnownChick> chicks = [.. Enumerable.Range(0, Chicks).Select(_ => new KnownChick(random.Fork(), middle * random.LogBetween(0.75, 1.33), Any(random), scale))];
        List<(int Chick, MotionRow Row)> rows = [];
        for (var morning = 0; morning < Taught; morning++)
        {
            for (var i = 0; i < Chicks; i++)
            {
                if (Mornings.Motion(Play(chicks[i].On(morning, Draw(random), random.NextUInt64()), []), Code(i), morning - Taught) is { } row)
                    rows.Add((i, row));
            }
        }

        for (var i = 0; i < Chicks; i++)
        {
            MotionRow[] known = [.. rows.Select(row => row.Chick == i ? row.Row with { Chick = PlayedStation.Chick } : row.Row)];
            for (var morning = 0; morning < Judged; morning++)
            {
                var placing = chicks[i].On(Taught, Draw(random), random.NextUInt64());
                yield return new KnownTrial(placing, chicks[i].Temper, Worst(placing, Play(placing, [])), Worst(placing, Play(placing, known)));
            }
        }
    }

    private static IEnumerable<WeighingEvent> Play(Placing placing, MotionRow[] known) =>
        PlayedStation.Events(placing, [.. placing.Readings()], new MotionMemory(known)).OfType<WeighingEvent>();

    private static Answer? Worst(Placing placing, IEnumerable<WeighingEvent> weighings) => weighings
        .Where(told => told.Verdict == "accepted")
        .Select(told => (Answer?)new Answer(PlayedStation.Seconds(told), (double)told.Grams!, (double)told.UncertaintyGrams!))
        .MaxBy(answer => Math.Abs(answer!.Value.Grams - placing.Truth.NetGrams));

    private static string Code(int chick) => $"CH-01{chick:00}";

    private static Temperament Any(SeededRandom random) => random.Unit() switch
    {
        < 0.25 => Temperament.Sleeper(random),
        < 0.65 => Temperament.Calm(random),
        < 0.9 => Temperament.Restless(random),
        _ => Temperament.Flapper(random),
    };

    private static string Draw(SeededRandom random)
    {
        var left = random.Unit() * KnownChick.Kinds.Sum(kind => kind.Weight);
        foreach (var (name, weight) in KnownChick.Kinds)
        {
            left -= weight;
            if (left < 0)
                return name;
        }

        return KnownChick.Kinds[^1].Name;
    }
}
