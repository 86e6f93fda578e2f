using CaptureAgent.Protocol.Frames;

namespace CaptureAgent.Protocol.FrameFinding;

/// <summary>What else stands in the frames of a candidate: a check sum, a counter, a bit of stability. Proposals; the value does not depend on them.</summary>
internal static class FrameSurroundings
{
    /// <summary>By chance a check of eight bits fits this many different frames once in 10^14.</summary>
    private const int EnoughFrames = 6;

    private const double NearlyAll = 0.95;

    private const double Most = 0.6;

    public static FrameCandidate Add(FrameCandidate candidate, IReadOnlyList<FrameSample> samples, IReadOnlyList<KnownTime> times)
    {
        var frames = samples.Where(one => one.Source == candidate.Source && one.Frame.Length == candidate.Length
            && (candidate.Begins is not { } first || one.Frame.Span[0] == first)).ToArray();
        var checksum = ChecksumOf(frames);
        return candidate with { Checksum = checksum, Clock = ClockOf(frames, candidate, checksum), Stable = StableOf(frames, candidate, times, checksum) };
    }

    private static FrameChecksum? ChecksumOf(FrameSample[] frames)
    {
        if (frames.Select(one => Convert.ToHexString(one.Frame.Span)).Distinct().Count() < EnoughFrames)
            return null;
        foreach (var usual in FrameChecksum.Usual)
        {
            for (var from = 0; from <= 2; from++)
            {
                foreach (var big in (bool[])[false, true])
                {
                    var tried = usual with { From = from, IsBigEndian = big };
                    if (frames.All(one => tried.Holds(one.Frame.Span)))
                        return tried;
                }
            }
        }

        return null;
    }

    private static FrameClock? ClockOf(FrameSample[] frames, FrameCandidate candidate, FrameChecksum? checksum)
    {
        if (frames.Length < EnoughFrames)
            return null;
        for (var offset = 0; offset < candidate.Length; offset++)
        {
            if (IsTaken(offset, candidate, checksum))
                continue;
            var rises = 0;
            for (var i = 1; i < frames.Length; i++)
                rises += frames[i].Frame.Span[offset] == (frames[i - 1].Frame.Span[offset] + 1) % 256 ? 1 : 0;
            var interval = (frames[^1].Seconds - frames[0].Seconds) / (frames.Length - 1) * 1000;
            if (rises >= NearlyAll * (frames.Length - 1) && interval is >= 1 and <= 60_000)
                return new FrameClock(new FrameField(offset, 1), Math.Round((decimal)interval));
        }

        return null;
    }

    // The same in nearly all frames while something lies still, and different in most while the value is on its way.
    private static FrameBit? StableOf(FrameSample[] frames, FrameCandidate candidate, IReadOnlyList<KnownTime> times, FrameChecksum? checksum)
    {
        var still = frames.Where(one => times.Any(time => one.Seconds >= time.FromSeconds && one.Seconds <= time.ThroughSeconds)).ToArray();
        var levels = candidate.Proof.Select(one => candidate.Field.TryRead(one.Frame.Span, out var value) ? value : 0).ToArray();
        var moving = frames.Where(one => candidate.Field.TryRead(one.Frame.Span, out var value) && levels.All(level => Math.Abs(value - level) > 5)).ToArray();
        if (moving.Length < EnoughFrames)
            return null;
        for (var offset = 0; offset < candidate.Length; offset++)
        {
            for (var bit = 0; bit < 8 && !IsTaken(offset, candidate, checksum); bit++)
            {
                var mask = (byte)(1 << bit);
                var whenStill = Share(still, offset, mask);
                var whenMoving = Share(moving, offset, mask);
                if (whenStill >= NearlyAll && whenMoving <= 1 - Most)
                    return new FrameBit(offset, mask, SetMeansStable: true);
                if (whenStill <= 1 - NearlyAll && whenMoving >= Most)
                    return new FrameBit(offset, mask, SetMeansStable: false);
            }
        }

        return null;
    }

    private static double Share(FrameSample[] frames, int offset, byte mask) => frames.Count(one => (one.Frame.Span[offset] & mask) != 0) / (double)frames.Length;

    private static bool IsTaken(int offset, FrameCandidate candidate, FrameChecksum? checksum) =>
        offset >= candidate.Field.Offset && offset < candidate.Field.Offset + candidate.Field.Width
        || checksum is not null && offset >= candidate.Length - checksum.Width;
}
