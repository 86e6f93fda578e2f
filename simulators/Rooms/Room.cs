using CaptureAgent.Simulators.Physics;

namespace CaptureAgent.Simulators.Rooms;

/// <summary>A simulated nursery room: chicks of many ages and species, weighed every morning.</summary>
public sealed class Room
{
    private readonly RoomConditions conditions;
    private readonly SeededRandom random;

    public Room(RoomConditions conditions, ulong seed)
    {
        this.conditions = conditions;
        random = new SeededRandom(seed);
        var chicks = new List<RoomChick>();
        for (var clutch = 1; chicks.Count < conditions.Chicks; clutch++)
        {
            var species = SpeciesCurve.Draw(random, conditions.Unlisted);
            // Of every age at the last morning, up to weaned.
            var age = (int)random.Between(3, Math.Min(1.6 * species.AgeAt(0.97), conditions.Days + 20));
            var mates = 1 + (int)(random.Unit() * conditions.LargestClutch);
            for (var mate = 0; mate < mates && chicks.Count < conditions.Chicks; mate++)
            {
                var hatched = conditions.Days - 1 - age + mate * (random.Chance(0.5) ? 1 : 2);
                chicks.Add(new RoomChick(
                    FormattableString.Invariant($"CH-{chicks.Count + 1:0000}"), species, Math.Min(hatched, conditions.Days - 3),
                    !random.Chance(conditions.NoHatchDate), FormattableString.Invariant($"nest {clutch}"), conditions, random.Fork()));
            }
        }

        Chicks = chicks;
        Common = [.. Enumerable.Range(0, conditions.Days).Select(_ => conditions.CommonNoise * random.Normal())];
    }

    public IReadOnlyList<RoomChick> Chicks { get; }

    /// <summary>What all weights of a morning have in common, in ln(weight).</summary>
    public double[] Common { get; }

    public int Days => conditions.Days;

    /// <summary>Puts every chick on the scale on every morning; once, after all changes.</summary>
    public void Weigh()
    {
        foreach (var chick in Chicks)
        {
            for (var day = Math.Max(chick.HatchDay, 0); day < Days; day++)
            {
                var grams = Math.Exp(chick.Course[day] + chick.Noise[day] + Common[day]);
                var shown = Math.Round(grams / conditions.Division) * conditions.Division;
                chick.Weights[day] = random.Chance(conditions.Missing) && day < Days - 1 ? 0 : Math.Round(shown, 3);
            }
        }
    }
}
