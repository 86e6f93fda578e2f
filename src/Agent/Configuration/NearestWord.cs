namespace CaptureAgent.Agent.Configuration;

/// <summary>Finds what a misspelt word was probably meant to be.</summary>
internal static class NearestWord
{
    /// <summary>The nearest of the words, or null if none is near: at most a third of the letters differ. Case does not count.</summary>
    public static string? Of(string word, IEnumerable<string> words) => Of(word, words, 1) is [var nearest] ? nearest : null;

    /// <summary>Up to <paramref name="count"/> near words, the nearest first.</summary>
    public static IReadOnlyList<string> Of(string word, IEnumerable<string> words, int count) =>
    [
        .. words
            .Select(candidate => (candidate, distance: Distance(word.ToUpperInvariant(), candidate.ToUpperInvariant())))
            .Where(pair => pair.distance <= Math.Max(1, Math.Max(word.Length, pair.candidate.Length) / 3))
            .OrderBy(pair => pair.distance)
            .ThenBy(pair => pair.candidate, StringComparer.Ordinal)
            .Take(count)
            .Select(pair => pair.candidate),
    ];

    /// <summary>Letters to put in, take out, change, or swap with their neighbour (optimal string alignment).</summary>
    internal static int Distance(ReadOnlySpan<char> a, ReadOnlySpan<char> b)
    {
        var before = new int[b.Length + 1];
        var above = new int[b.Length + 1];
        var row = new int[b.Length + 1];
        for (var j = 0; j <= b.Length; j++)
            above[j] = j;

        for (var i = 1; i <= a.Length; i++)
        {
            row[0] = i;
            for (var j = 1; j <= b.Length; j++)
            {
                var change = above[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
                row[j] = Math.Min(change, Math.Min(above[j], row[j - 1]) + 1);
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                    row[j] = Math.Min(row[j], before[j - 2] + 1);
            }

            (before, above, row) = (above, row, before);
        }

        return above[b.Length];
    }
}
