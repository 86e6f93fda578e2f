using System.Globalization;

namespace CaptureAgent.Benchmarks.Settle;

/// <summary><c>[count] [seed] [family] [--hasty] [--list] [--dump N]</c></summary>
internal sealed record SettleArguments
{
    /// <summary>Fewer placings are for looking into.</summary>
    private const int LeastForTheRecord = 2000;

    /// <summary>The record is of one draw, so that records can be compared.</summary>
    private const ulong SeedOfTheRecord = 1;

    public int Count { get; private init; } = 4000;

    public ulong Seed { get; private init; } = SeedOfTheRecord;

    /// <summary>A part of the names of families; null: all.</summary>
    public string? Family { get; private init; }

    /// <summary>By a keeper in a hurry (<see cref="Simulators.Physics.Placings.HastyHands"/>).</summary>
    public bool IsHasty { get; private init; }

    public bool List { get; private init; }

    /// <summary>Number of the one placing to show; null: none.</summary>
    public int? Dump { get; private init; }

    public bool IsForTheRecord => Family is null && !IsHasty && Count >= LeastForTheRecord && Seed == SeedOfTheRecord;

    /// <summary>Null if they make no sense.</summary>
    public static SettleArguments? Parse(IReadOnlyList<string> words)
    {
        var parsed = new SettleArguments();
        var place = 0;
        for (var i = 0; i < words.Count; i++)
        {
            switch (words[i])
            {
                case "--list":
                    parsed = parsed with { List = true };
                    continue;
                case "--hasty":
                    parsed = parsed with { IsHasty = true };
                    continue;
                case "--dump" when i + 1 < words.Count && TryWhole(words[i + 1], out var number):
                    parsed = parsed with { Dump = number };
                    i++;
                    continue;
            }

            switch (place++)
            {
                case 0 when TryWhole(words[i], out var count):
                    parsed = parsed with { Count = count };
                    break;
                case 1 when ulong.TryParse(words[i], NumberStyles.None, CultureInfo.InvariantCulture, out var seed):
                    parsed = parsed with { Seed = seed };
                    break;
                case 2 when !words[i].StartsWith('-'):
                    parsed = parsed with { Family = words[i] };
                    break;
                default:
                    return null;
            }
        }

        return parsed;
    }

    private static bool TryWhole(string word, out int number) =>
        int.TryParse(word, NumberStyles.None, CultureInfo.InvariantCulture, out number) && number > 0;
}
