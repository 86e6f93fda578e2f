namespace CaptureAgent.Protocol.Frames;

/// <summary>How a number below zero is written.</summary>
public enum FrameSign
{
    /// <summary>Not at all.</summary>
    None,
    TwosComplement,

    /// <summary>A magnitude, and a bit elsewhere that is set below zero.</summary>
    Bit,
}

/// <summary>A whole number in a frame.</summary>
/// <param name="Offset">Place of its first byte; negative: counted from the end, -1 being the last.</param>
/// <param name="Width">Bytes, 1 to 4.</param>
/// <param name="IsBigEndian">The high byte stands first.</param>
/// <param name="SignOffset">For <see cref="FrameSign.Bit"/>: the byte with the sign.</param>
/// <param name="SignMask">For <see cref="FrameSign.Bit"/>: the bits of it, set below zero.</param>
public readonly record struct FrameField(
    int Offset, int Width, bool IsBigEndian = false, FrameSign Sign = FrameSign.None, int SignOffset = 0, byte SignMask = 0)
{
    public const int MaxWidth = 4;

    /// <summary>Index of a place; may lie outside of the frame.</summary>
    public static int Place(int offset, int length) => offset >= 0 ? offset : length + offset;

    /// <summary>False where the frame ends before it.</summary>
    public bool TryRead(ReadOnlySpan<byte> frame, out long value)
    {
        value = 0;
        var start = Place(Offset, frame.Length);
        if (start < 0 || Width is < 1 or > MaxWidth || start + Width > frame.Length)
            return false;
        for (var i = 0; i < Width; i++)
            value = value << 8 | frame[IsBigEndian ? start + i : start + Width - 1 - i];
        switch (Sign)
        {
            case FrameSign.TwosComplement:
                var unused = 64 - 8 * Width;
                value = value << unused >> unused;
                return true;
            case FrameSign.Bit:
                if (!TryBits(frame, SignOffset, SignMask, out var bits))
                    return false;
                value = bits != 0 ? -value : value;
                return true;
            default:
                return true;
        }
    }

    /// <summary>Bits of one byte; false where the frame ends before it.</summary>
    public static bool TryBits(ReadOnlySpan<byte> frame, int offset, byte mask, out byte bits)
    {
        var place = Place(offset, frame.Length);
        var isThere = place >= 0 && place < frame.Length;
        bits = isThere ? (byte)(frame[place] & mask) : (byte)0;
        return isThere;
    }
}
