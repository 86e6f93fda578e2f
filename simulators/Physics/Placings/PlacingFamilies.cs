using CaptureAgent.Simulators.Physics.Placings.Families;

namespace CaptureAgent.Simulators.Physics.Placings;

/// <summary>All kinds of placing, and draws from the mix of them.</summary>
public static class PlacingFamilies
{
    public static IReadOnlyList<PlacingFamily> All { get; } = [.. Ordinary.All, .. Hands.All, .. Surroundings.All, .. Mishaps.All];

    /// <summary>As many placings as asked for, families by their weights, the same for the same seed.</summary>
    public static IEnumerable<Placing> Draw(ulong seed, int count)
    {
        var random = new SeededRandom(seed);
        var total = All.Sum(family => family.Weight);
        for (var i = 0; i < count; i++)
        {
            var mark = random.Unit() * total;
            var chosen = All[^1];
            foreach (var family in All)
            {
                mark -= family.Weight;
                if (mark >= 0)
                    continue;
                chosen = family;
                break;
            }

            yield return chosen.Draw(random.NextUInt64());
        }
    }
}
