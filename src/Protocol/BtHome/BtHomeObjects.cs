namespace CaptureAgent.Protocol.BtHome;

/// <summary>The objects of BTHome version 2: how long each is, and the number in it. Pure; never throws on any bytes.</summary>
/// <remarks>
/// bthome.io, page Format (objects, lengths, factors). Lengths follow from the ids alone, so that an unknown id ends the reading; what came before it stands.
/// Objects without a number (text, raw, commands) are passed over.
/// </remarks>
public static class BtHomeObjects
{
    /// <summary>Bytes of the value by id; 0: not known.</summary>
    private static readonly byte[] Lengths = MakeLengths();

    /// <summary>Appends the numbers in the order in which they stand; an id may repeat.</summary>
    /// <param name="payload">After the device information, decrypted.</param>
    public static void Read(ReadOnlySpan<byte> payload, List<BtHomeObject> objects)
    {
        while (payload.Length > 1)
        {
            var id = payload[0];
            var value = payload[1..];
            var length = LengthOf(id, value);
            if (length == 0 || length > value.Length)
                return;
            if (NumberOf(id, value[..length]) is { } number)
                objects.Add(new(id, number));
            payload = value[length..];
        }
    }

    private static int LengthOf(byte id, ReadOnlySpan<byte> value) => id switch
    {
        // Text and raw bytes: a length in front. A command: the number of its arguments in five bits, then its opcode.
        0x53 or 0x54 => 1 + value[0],
        0x3B => 2 + (value[0] & 0x1F),
        _ => Lengths[id],
    };

    private static decimal? NumberOf(byte id, ReadOnlySpan<byte> value) => id switch
    {
        0x00 or 0x01 or 0x2E or 0x2F or 0x09 or 0x3A or (>= 0x0F and <= 0x11) or (>= 0x15 and <= 0x2D) => value[0],
        0x3D or 0x3E or 0x50 or 0xF0 => Unsigned(value),
        0x59 or 0x5A or 0x5B or 0x57 => Signed(value),
        0x58 => Signed(value) * 0.35m,
        0x45 => Signed(value) * 0.1m,
        0x02 or 0x08 => Signed(value) * 0.01m,
        0x03 or 0x04 or 0x06 or 0x07 => Unsigned(value) * 0.01m,
        0x0C => Unsigned(value) * 0.001m,
        0x4A => Unsigned(value) * 0.1m,
        _ => null,
    };

    private static long Unsigned(ReadOnlySpan<byte> value)
    {
        long number = 0;
        for (var i = value.Length - 1; i >= 0; i--)
            number = number << 8 | value[i];
        return number;
    }

    private static long Signed(ReadOnlySpan<byte> value)
    {
        var unused = 64 - 8 * value.Length;
        return Unsigned(value) << unused >> unused;
    }

    private static byte[] MakeLengths()
    {
        var lengths = new byte[256];
        Set(1, [0x00, 0x01, 0x09, 0x0F, 0x10, 0x11, 0x2E, 0x2F, 0x3A, 0x46, 0x57, 0x58, 0x59, 0x60, 0x64, 0x65]);
        for (var id = 0x15; id <= 0x2D; id++)
            lengths[id] = 1;
        Set(2, [0x02, 0x03, 0x06, 0x07, 0x08, 0x0C, 0x0D, 0x0E, 0x12, 0x13, 0x14, 0x3C, 0x3D, 0x3F, 0x40, 0x41, 0x43, 0x44, 0x45, 0x47, 0x48, 0x49, 0x4A]);
        Set(2, [0x51, 0x52, 0x56, 0x5A, 0x5D, 0x5E, 0x5F, 0x61, 0xF0]);
        Set(3, [0x04, 0x05, 0x0A, 0x0B, 0x42, 0x4B, 0xF2]);
        Set(4, [0x3E, 0x4C, 0x4D, 0x4E, 0x4F, 0x50, 0x55, 0x5B, 0x5C, 0x62, 0x63, 0xF1]);
        return lengths;

        void Set(byte length, ReadOnlySpan<byte> ids)
        {
            foreach (var id in ids)
                lengths[id] = length;
        }
    }
}
