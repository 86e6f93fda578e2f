using CaptureAgent.Agent.Round;
using CaptureAgent.Benchmarks.Known;
using CaptureAgent.Benchmarks.Settle;
using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Physics.Chicks;
using CaptureAgent.Simulators.Physics.Placings;
using CaptureAgent.Simulators.Physics.Scales;
using CaptureAgent.Store;
using Placing = CaptureAgent.Simulators.Physics.Placings.Placing;

namespace CaptureAgent.Benchmarks.Trees;

/// <summary>The motion that a station would know of a placing's chick from earlier mornings on its scale.</summary>
internal static class EarlierMornings
{
    /// <summary>The share of chicks that move as others do today.</summary>
    private const double Unlike = 0.04;

    /// <summary>The placing on a morning of another mood, and the motions of mornings before.</summary>
    public static (Placing Placing, MotionMemory Known) Of(Placing placing, SeededRandom random)
    {
        var own = placing.Loads.First(load => load.Id == PlacingDraft.Chick).Temperament!;
        var today = random.Chance(Unlike) ? Temperament.Sleeper(random) : Mornings.InMood(own, random);
        List<MotionRow> rows = [];
        for (var days = random.Pick(3, 4, 5, 6, 7); days > 0; days--)
        {
            if (Moved(placing, Mornings.InMood(own, random), days, random) is { } row)
                rows.Add(row);
        }

        return (placing with { Loads = [.. placing.Loads.Select(load => load.Id == PlacingDraft.Chick ? load with { Temperament = today } : load)] }, new MotionMemory(rows));
    }

    private static MotionRow? Moved(Placing today, Temperament temperament, int days, SeededRandom random)
    {
        var grams = today.Truth.NetGrams / Math.Pow(Mornings.Growth, days);
        var placing = new PlacingDraft(random, grams, temperament, today.Scale).LayLiner().Lower().LetGo(random.Between(8, 12)).Lift()
            .Build(today.Family, random.NextUInt64(), mustRecord: true, mayRecord: true);
        return Mornings.Motion(PlayedStation.Events(placing, [.. placing.Readings()]), PlayedStation.Chick, -days);
    }
}
