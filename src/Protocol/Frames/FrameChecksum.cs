using System.Collections.ObjectModel;

namespace CaptureAgent.Protocol.Frames;

public enum ChecksumKind
{
    /// <summary>Sum of the bytes, low eight bits.</summary>
    Sum,

    /// <summary>Exclusive or of the bytes.</summary>
    Xor,
    Crc8,
    Crc16,
}

/// <summary>How a frame is protected. The parameters are those by which CRCs are catalogued (width, poly, init, refin = refout, xorout).</summary>
/// <param name="At">Place of its first byte; negative: counted from the end, -1 being the last.</param>
/// <param name="From">First byte that it covers.</param>
/// <param name="Through">Last byte that it covers; negative: from the end.</param>
/// <param name="Polynomial">Without its highest term, not reflected. For CRCs alone.</param>
/// <param name="Initial">Begins with it; a sum or an exclusive or too.</param>
/// <param name="XorOut">Ends with it.</param>
/// <param name="IsBigEndian">For 16 bits: the high byte stands first.</param>
public sealed record FrameChecksum(
    ChecksumKind Kind, int At, int From, int Through, int Polynomial = 0, int Initial = 0, bool IsReflected = false, int XorOut = 0, bool IsBigEndian = false)
{
    /// <summary>Bytes that it takes.</summary>
    public int Width => Kind == ChecksumKind.Crc16 ? 2 : 1;

    /// <summary>The polynomials that devices use most.</summary>
    public static ReadOnlyCollection<FrameChecksum> Usual { get; } = new(
    [
        new(ChecksumKind.Sum, -1, 0, -2),
        new(ChecksumKind.Xor, -1, 0, -2),
        new(ChecksumKind.Sum, -1, 0, -2, XorOut: 0xFF),
        new(ChecksumKind.Sum, -1, 0, -2, Initial: 0xFF, XorOut: 0xFF),
        new(ChecksumKind.Crc8, -1, 0, -2, 0x07),
        new(ChecksumKind.Crc8, -1, 0, -2, 0x31, IsReflected: true),
        new(ChecksumKind.Crc8, -1, 0, -2, 0x31, Initial: 0xFF),
        new(ChecksumKind.Crc16, -2, 0, -3, 0x8005, 0xFFFF, IsReflected: true),
        new(ChecksumKind.Crc16, -2, 0, -3, 0x1021),
        new(ChecksumKind.Crc16, -2, 0, -3, 0x1021, 0xFFFF),
        new(ChecksumKind.Crc16, -2, 0, -3, 0x1021, IsReflected: true),
    ]);

    /// <summary>False for a frame that is damaged, or too short to have one.</summary>
    public bool Holds(ReadOnlySpan<byte> frame)
    {
        var at = FrameField.Place(At, frame.Length);
        var from = FrameField.Place(From, frame.Length);
        var through = FrameField.Place(Through, frame.Length);
        if (at < 0 || at + Width > frame.Length || from < 0 || through >= frame.Length || through < from)
            return false;
        var told = Width == 1 ? frame[at] : IsBigEndian ? frame[at] << 8 | frame[at + 1] : frame[at + 1] << 8 | frame[at];
        return told == Compute(frame[from..(through + 1)]);
    }

    /// <summary>The check value of some bytes, 8 or 16 bits.</summary>
    public int Compute(ReadOnlySpan<byte> bytes) => Kind switch
    {
        ChecksumKind.Sum => (Sum(bytes) ^ XorOut) & 0xFF,
        ChecksumKind.Xor => (Xor(bytes) ^ XorOut) & 0xFF,
        _ => Crc(bytes),
    };

    private int Sum(ReadOnlySpan<byte> bytes)
    {
        var sum = Initial;
        foreach (var one in bytes)
            sum += one;
        return sum;
    }

    private int Xor(ReadOnlySpan<byte> bytes)
    {
        var all = Initial;
        foreach (var one in bytes)
            all ^= one;
        return all;
    }

    // Bit by bit: a frame is a dozen bytes, ten times a second.
    private int Crc(ReadOnlySpan<byte> bytes)
    {
        var width = 8 * Width;
        var mask = (1 << width) - 1;
        var top = 1 << width - 1;
        var polynomial = IsReflected ? Reflect(Polynomial, width) : Polynomial;
        var crc = IsReflected ? Reflect(Initial, width) : Initial;
        foreach (var one in bytes)
        {
            crc ^= IsReflected ? one : one << width - 8;
            for (var bit = 0; bit < 8; bit++)
            {
                crc = IsReflected
                    ? (crc & 1) != 0 ? crc >> 1 ^ polynomial : crc >> 1
                    : (crc & top) != 0 ? (crc << 1 ^ polynomial) & mask : crc << 1 & mask;
            }
        }

        return (crc ^ XorOut) & mask;
    }

    private static int Reflect(int value, int width)
    {
        var reflected = 0;
        for (var bit = 0; bit < width; bit++)
            reflected |= (value >> bit & 1) << width - 1 - bit;
        return reflected;
    }
}
