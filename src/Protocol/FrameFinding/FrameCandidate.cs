using CaptureAgent.Protocol.Frames;

namespace CaptureAgent.Protocol.FrameFinding;

/// <summary>A place in a device's frames that follows what is known.</summary>
/// <param name="Source">Characteristic of the frames.</param>
/// <param name="Begins">Byte that tells these frames from others of the same length; null where it need not.</param>
/// <param name="Factor">What one count is, in the unit.</param>
/// <param name="Unit">g, oz or lb; C or F.</param>
/// <param name="IsRound">The factor is 1, 2 or 5 times a power of ten, as scales have it.</param>
/// <param name="WorstError">Largest difference from what is known, in grams or degrees Celsius.</param>
/// <param name="Step">One count, in grams or degrees Celsius.</param>
/// <param name="Proof">A frame for each known thing, in their order.</param>
public sealed record FrameCandidate(
    string? Source, int Length, byte? Begins, FrameField Field, decimal Factor, string Unit, bool IsRound, decimal WorstError, decimal Step,
    IReadOnlyList<(decimal Known, ReadOnlyMemory<byte> Frame)> Proof)
{
    /// <summary>Largest value that fits, in grams or degrees Celsius.</summary>
    public decimal Largest => Step * ((1L << 8 * Field.Width - (Field.Sign == FrameSign.TwosComplement ? 1 : 0)) - 1);

    /// <summary>Where the frames say that they are undamaged; null: nowhere, as it seems.</summary>
    public FrameChecksum? Checksum { get; init; }

    /// <summary>A byte that counts the frames; null: none does.</summary>
    public FrameClock? Clock { get; init; }

    /// <summary>A bit that changes with motion; null: none does.</summary>
    public FrameBit? Stable { get; init; }
}
