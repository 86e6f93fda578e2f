using CaptureAgent.Protocol.Frames;

namespace CaptureAgent.Protocol.FrameFinding;

/// <summary>Finds where a device puts its value, from frames that came while known masses lay on the pan (or the probe was at known temperatures). Pure.</summary>
/// <remarks>
/// Every place, width, endianness and sign is tried; a candidate must follow all that is known by one factor, within one step (for a temperature half a degree,
/// which is how well a keeper knows it). Round factors come first, then the smallest error, the finest step and the narrowest field.
/// </remarks>
public static class FrameFinder
{
    private const int MostCandidates = 20;

    /// <summary>Counts between the lightest and the heaviest thing, without which a factor shows nothing.</summary>
    private const long FewestCounts = 20;

    private static readonly decimal[] Leading = [1m, 2m, 5m];

    /// <param name="isProbe">Known are temperatures, else masses.</param>
    /// <param name="largest">The largest value that the device shows, in grams or degrees Celsius; null: not known.</param>
    /// <returns>The best first; empty if nothing follows what is known.</returns>
    public static IReadOnlyList<FrameCandidate> Find(IReadOnlyList<FrameSample> samples, IReadOnlyList<KnownTime> times, bool isProbe, decimal? largest = null)
    {
        var found = new List<FrameCandidate>();
        foreach (var frames in KnownFrames.Of(samples, times))
        {
            foreach (var field in Fields(frames.Length))
            {
                foreach (var unit in isProbe ? FoundUnit.OfProbes : FoundUnit.OfScales)
                {
                    if (Try(frames, field, unit, isProbe) is { } candidate)
                        found.Add(candidate);
                }
            }
        }

        return
        [
            .. found.OrderByDescending(one => one.IsRound)
                .ThenBy(one => largest is { } most && one.Largest < most)
                .ThenBy(one => one.WorstError)
                .ThenBy(one => one.Step)
                .ThenBy(one => one.Begins is not null)
                .ThenBy(one => one.Field.Width)
                .ThenBy(one => one.Field.Sign == FrameSign.None)
                .Take(MostCandidates)
                .Select(one => FrameSurroundings.Add(one, samples, times)),
        ];
    }

    private static IEnumerable<FrameField> Fields(int length)
    {
        for (var width = 1; width <= FrameField.MaxWidth; width++)
        {
            for (var offset = 0; offset + width <= length; offset++)
            {
                foreach (var sign in (FrameSign[])[FrameSign.TwosComplement, FrameSign.None])
                {
                    yield return new FrameField(offset, width, IsBigEndian: false, sign);
                    if (width > 1)
                        yield return new FrameField(offset, width, IsBigEndian: true, sign);
                }
            }
        }
    }

    private static FrameCandidate? Try(KnownFrames frames, FrameField field, FoundUnit unit, bool isProbe)
    {
        var counts = new long[frames.Known.Length];
        for (var i = 0; i < counts.Length; i++)
            counts[i] = Median(frames.Known[i].Frames, field);
        var low = Lightest(frames.Known);
        var high = Heaviest(frames.Known);
        if (counts[high] - counts[low] < FewestCounts)
            return null;

        var (known, spread) = (frames.Known, unit.FromBase(frames.Known[high].Known) - unit.FromBase(frames.Known[low].Known));
        var slope = spread / (counts[high] - counts[low]);
        foreach (var (factor, isRound) in ((decimal, bool)[])[(Round(slope), true), (Math.Round(slope, 8), false)])
        {
            // Another unit than the usual one must show itself by a round factor.
            if (factor <= 0 || !isRound && !unit.IsUsual)
                continue;
            var step = unit.StepToBase(factor);
            var worst = 0m;
            for (var i = 0; i < counts.Length; i++)
                worst = Math.Max(worst, Math.Abs(unit.ToBase(counts[i] * factor) - known[i].Known));
            if (worst <= (isProbe ? Math.Max(0.5m, step) : step))
                return new(frames.Source, frames.Length, frames.Begins, field, factor, unit.Name, isRound, worst, step, Proof(frames, field, counts));
        }

        return null;
    }

    private static int Lightest((decimal Known, FrameSample[] Frames)[] known) => Array.FindIndex(known, one => one.Known == known.Min(other => other.Known));

    private static int Heaviest((decimal Known, FrameSample[] Frames)[] known) => Array.FindIndex(known, one => one.Known == known.Max(other => other.Known));

    /// <summary>The nearest of 1, 2 or 5 times a power of ten.</summary>
    private static decimal Round(decimal factor)
    {
        if (factor <= 0)
            return 0;
        var best = 0m;
        for (var power = 0.000001m; power <= 1000m; power *= 10)
        {
            foreach (var lead in Leading)
            {
                if (best == 0 || Math.Abs(factor / (lead * power) - 1) < Math.Abs(factor / best - 1))
                    best = lead * power;
            }
        }

        return best / 1.0000000000000000000000000000m;
    }

    private static long Median(FrameSample[] frames, FrameField field)
    {
        var values = new long[frames.Length];
        for (var i = 0; i < values.Length; i++)
            _ = field.TryRead(frames[i].Frame.Span, out values[i]);
        Array.Sort(values);
        return values[values.Length / 2];
    }

    private static List<(decimal, ReadOnlyMemory<byte>)> Proof(KnownFrames frames, FrameField field, long[] counts)
    {
        var proof = new List<(decimal, ReadOnlyMemory<byte>)>();
        for (var i = 0; i < counts.Length; i++)
        {
            var seen = frames.Known[i].Frames.Last(one => field.TryRead(one.Frame.Span, out var value) && value == counts[i]);
            proof.Add((frames.Known[i].Known, seen.Frame));
        }

        return proof;
    }
}
