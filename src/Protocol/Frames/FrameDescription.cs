namespace CaptureAgent.Protocol.Frames;

/// <summary>Where a device of no open standard puts its value. Made from the station's configuration; nothing here is guessed.</summary>
/// <param name="Value">The number.</param>
/// <param name="Factor">What one of it is, in the unit; also its step.</param>
public sealed record FrameDescription(FrameField Value, decimal Factor)
{
    /// <summary>Shorter frames are refused.</summary>
    public int MinLength { get; init; } = 1;

    /// <summary>Bytes with which every frame begins; others are not looked at.</summary>
    public ReadOnlyMemory<byte> Begins { get; init; }

    /// <summary>The unit's byte and what it may be; null: the unit is always the same.</summary>
    public FrameUnits? Units { get; init; }

    /// <summary>Where the device says that its value is stable; null: it does not.</summary>
    public FrameBit? Stable { get; init; }

    public FrameChecksum? Checksum { get; init; }

    /// <summary>The device's own clock or counter; null: it has none.</summary>
    public FrameClock? Clock { get; init; }

    /// <summary>Whether a frame is one of this description, whole and undamaged.</summary>
    public LineFault Accepts(ReadOnlySpan<byte> frame)
    {
        if (!frame.StartsWith(Begins.Span))
            return LineFault.NoValue;
        if (frame.Length < MinLength)
            return LineFault.BadShape;
        return Checksum is null || Checksum.Holds(frame) ? LineFault.None : LineFault.BadCheck;
    }
}

/// <param name="Mask">The bits of the byte that tell the unit.</param>
/// <param name="Names">Unit by those bits: g, kg, mg, oz, lb; C, F.</param>
public sealed record FrameUnits(int Offset, byte Mask, IReadOnlyDictionary<byte, string> Names);

/// <param name="SetMeansStable">Else the bits are set while the value moves.</param>
public readonly record struct FrameBit(int Offset, byte Mask, bool SetMeansStable);

/// <param name="Field">Unsigned; it wraps.</param>
/// <param name="Milliseconds">Of one count.</param>
public readonly record struct FrameClock(FrameField Field, decimal Milliseconds);
