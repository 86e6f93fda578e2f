using CaptureAgent.Protocol.FrameFinding;
using CaptureAgent.Protocol.Frames;

namespace CaptureAgent.Protocol.Tests.FrameFinding;

/// <summary>A device of an invented layout, on which masses are put one after the other: empty, and each mass, ten seconds each.</summary>
internal sealed class InventedDevice(int seed)
{
    public const int SecondsEach = 10;

    private readonly Random random = new(seed);

    public FrameField Field { get; init; } = new(3, 2, IsBigEndian: true, FrameSign.TwosComplement);

    public decimal Step { get; init; } = 0.1m;

    public int Length { get; init; } = 8;

    /// <summary>Place of a frame counter; null: none.</summary>
    public int? Counter { get; init; }

    public FrameChecksum? Checksum { get; init; }

    /// <summary>Place of a byte whose bit 4 is set while the value moves; null: none.</summary>
    public int? Moving { get; init; }

    /// <summary>Place of a byte of noise; null: none.</summary>
    public int? Noise { get; init; }

    public string Source { get; init; } = "fff1";

    /// <summary>Ten frames a second. The first two seconds of each mass are its way on to the pan.</summary>
    public List<FrameSample> Play(params decimal[] masses)
    {
        var samples = new List<FrameSample>();
        var before = 0m;
        for (var i = 0; i < masses.Length * SecondsEach * 10; i++)
        {
            var mass = masses[i / (SecondsEach * 10)];
            var since = i % (SecondsEach * 10);
            var moves = since < 20 && before != mass;
            var shown = moves ? before + (mass - before) * since / 20 : mass;
            if (since == SecondsEach * 10 - 1)
                before = mass;
            samples.Add(new FrameSample(i * 0.1, Source, Frame(i, (long)Math.Round(shown / Step), moves)));
        }

        return samples;
    }

    /// <summary>The last five seconds of each mass.</summary>
    public static List<KnownTime> Times(params decimal[] masses) =>
        [.. masses.Select((mass, i) => new KnownTime(mass, i * SecondsEach + 4.5, i * SecondsEach + 9.5))];

    private byte[] Frame(int number, long counts, bool moves)
    {
        var frame = new byte[Length];
        for (var i = 0; i < frame.Length; i++)
            frame[i] = (byte)(0x51 + 7 * i & 0xFF);
        for (var i = 0; i < Field.Width; i++)
            frame[Field.Offset + (Field.IsBigEndian ? Field.Width - 1 - i : i)] = unchecked((byte)(counts >> 8 * i));
        if (Counter is { } counter)
            frame[counter] = (byte)(number & 0xFF);
        if (Noise is { } noise)
            frame[noise] = (byte)random.Next(256);
        if (Moving is { } moving)
            frame[moving] = (byte)(moves ? 0x10 : 0x00);
        if (Checksum is { } checksum)
        {
            var value = checksum.Compute(frame.AsSpan(checksum.From, Length - checksum.Width - checksum.From));
            frame[^1] = (byte)((checksum.Width == 2 && !checksum.IsBigEndian ? value >> 8 : value) & 0xFF);
            if (checksum.Width == 2)
                frame[^2] = (byte)((checksum.IsBigEndian ? value >> 8 : value) & 0xFF);
        }

        return frame;
    }
}
