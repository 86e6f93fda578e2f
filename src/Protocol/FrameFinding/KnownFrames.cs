namespace CaptureAgent.Protocol.FrameFinding;

/// <summary>The frames of one kind (source, length and, where kinds are mixed, first byte), sorted by what was known while they came.</summary>
internal sealed class KnownFrames
{
    /// <summary>Fewer frames of one thing show nothing.</summary>
    private const int Fewest = 3;

    private KnownFrames(FrameSample[] all, (decimal Known, FrameSample[] Frames)[] known, byte? begins)
    {
        All = all;
        Known = known;
        Begins = begins;
    }

    /// <summary>In the order of time.</summary>
    public FrameSample[] All { get; }

    public (decimal Known, FrameSample[] Frames)[] Known { get; }

    public byte? Begins { get; }

    public string? Source => All[0].Source;

    public int Length => All[0].Frame.Length;

    /// <summary>Every kind that was heard in each of the known times.</summary>
    public static IEnumerable<KnownFrames> Of(IReadOnlyList<FrameSample> samples, IReadOnlyList<KnownTime> times)
    {
        foreach (var kind in samples.Where(one => one.Frame.Length > 0).GroupBy(one => (one.Source, one.Frame.Length)))
        {
            var whole = kind.ToArray();
            if (Make(whole, times, null) is { } plain)
                yield return plain;
            var firsts = whole.Select(one => one.Frame.Span[0]).Distinct().ToArray();
            if (firsts.Length is < 2 or > 8)
                continue;
            foreach (var first in firsts)
            {
                if (Make([.. whole.Where(one => one.Frame.Span[0] == first)], times, first) is { } mixed)
                    yield return mixed;
            }
        }
    }

    private static KnownFrames? Make(FrameSample[] all, IReadOnlyList<KnownTime> times, byte? begins)
    {
        var known = times.Select(time => (time.Known, all.Where(one => one.Seconds >= time.FromSeconds && one.Seconds <= time.ThroughSeconds).ToArray())).ToArray();
        return known.All(one => one.Item2.Length >= Fewest) ? new KnownFrames(all, known, begins) : null;
    }
}
