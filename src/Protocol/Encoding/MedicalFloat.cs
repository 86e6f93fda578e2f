using System.Buffers.Binary;

namespace CaptureAgent.Protocol.Encoding;

/// <summary>What a number of ISO/IEEE 11073-20601 stands for.</summary>
public enum MedicalFloatKind
{
    /// <summary>A number.</summary>
    Finite,

    /// <summary>NaN: there is no number, as of a probe at fault.</summary>
    NotANumber,

    /// <summary>NRes: there is a number, but none at this resolution.</summary>
    NotAtThisResolution,
    PositiveInfinity,
    NegativeInfinity,

    /// <summary>Kept for later use.</summary>
    Reserved,

    /// <summary>A power of ten that no decimal holds, which no instrument sends.</summary>
    TooLarge,
}

/// <summary>FLOAT (32 bits) and SFLOAT (16 bits) of ISO/IEEE 11073-20601: mantissa * 10^exponent, both in two's complement, little-endian on the air.</summary>
/// <remarks>
/// The layout, the special values and that the exponent tells the precision (20 * 10^-1 is 2.0, 200 * 10^-2 is 2.00): HL7 Personal Health Device
/// implementation guide, page FLOATS, and the Bluetooth SIG's white paper on transcoding, 2.2. A special mantissa counts as such whatever its exponent:
/// the standard gives them with exponent 0, and some stacks do not.
/// </remarks>
/// <param name="Value">0 unless finite; its decimals are the sender's.</param>
/// <param name="Resolution">One of the last digit; 0 unless finite.</param>
public readonly record struct MedicalFloat(MedicalFloatKind Kind, decimal Value, decimal Resolution)
{
    /// <summary>FLOAT: exponent in the high 8 bits, mantissa in the low 24.</summary>
    /// <param name="bytes">Four bytes, little-endian; more are left alone.</param>
    public static MedicalFloat Read32(ReadOnlySpan<byte> bytes)
    {
        var word = BinaryPrimitives.ReadInt32LittleEndian(bytes);
        return Make(word << 8 >> 8, word >> 24, 0x7FFFFF);
    }

    /// <summary>SFLOAT: exponent in the high 4 bits, mantissa in the low 12.</summary>
    /// <param name="bytes">Two bytes, little-endian; more are left alone.</param>
    public static MedicalFloat Read16(ReadOnlySpan<byte> bytes)
    {
        var word = BinaryPrimitives.ReadInt16LittleEndian(bytes);
        return Make(word << 20 >> 20, word >> 12, 0x7FF);
    }

    // The five special mantissas lie round the largest positive and negative: +MAX, +MAX-1, -MAX-1, -MAX, -MAX+1.
    private static MedicalFloat Make(int mantissa, int exponent, int largest)
    {
        var kind =
            mantissa == largest ? MedicalFloatKind.NotANumber
            : mantissa == largest - 1 ? MedicalFloatKind.PositiveInfinity
            : mantissa == -largest - 1 ? MedicalFloatKind.NotAtThisResolution
            : mantissa == -largest ? MedicalFloatKind.Reserved
            : mantissa == -largest + 1 ? MedicalFloatKind.NegativeInfinity
            : MedicalFloatKind.Finite;
        if (kind != MedicalFloatKind.Finite)
            return new(kind, 0, 0);
        return DecimalPower.TryMake(mantissa, exponent, out var value, out var step)
            ? new(kind, value, step)
            : new(MedicalFloatKind.TooLarge, 0, 0);
    }
}
