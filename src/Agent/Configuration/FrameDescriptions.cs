using System.Globalization;
using CaptureAgent.Protocol.Frames;
using CaptureAgent.Protocol.Probes;
using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Agent.Configuration;

/// <summary>Makes decoders of the frame descriptions of station.json.</summary>
internal static class FrameDescriptions
{
    /// <summary>Of a checked description.</summary>
    public static FrameDescription Make(FrameOptions frame)
    {
        var value = frame.Value ?? throw new InvalidOperationException("The frame was not checked at start.");
        return new FrameDescription(FieldOf(value), value.Factor)
        {
            MinLength = frame.MinLength,
            Begins = Convert.FromHexString(frame.Begins ?? ""),
            Units = frame.Units is { } units ? new FrameUnits(units.Offset, Byte(units.Mask), units.Table.ToDictionary(row => Byte(row.Byte), row => row.Unit)) : null,
            Stable = frame.Stable is { } stable ? new FrameBit(stable.Offset, Byte(stable.Mask), stable.Set == "stable") : null,
            Checksum = frame.Checksum is { } checksum ? ChecksumOf(checksum) : null,
            Clock = frame.Clock is { } clock ? new FrameClock(new FrameField(clock.Offset, clock.Width, clock.Endianness == "big"), clock.Milliseconds) : null,
        };
    }

    public static FrameScale Scale(FrameOptions frame)
    {
        _ = MassUnits.TryParse(System.Text.Encoding.ASCII.GetBytes(frame.Value?.Unit ?? "g"), out var unit);
        return new FrameScale(Make(frame), unit);
    }

    public static FrameProbe Probe(FrameOptions frame) => new(Make(frame), frame.Value?.Unit == "F");

    internal static int Hex(string text) => int.Parse(text, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture);

    private static byte Byte(string text) => (byte)Hex(text);

    private static FrameField FieldOf(FrameValueOptions value) => new(
        value.Offset, value.Width, value.Endianness == "big",
        value.Sign switch { "none" => FrameSign.None, "bit" => FrameSign.Bit, _ => FrameSign.TwosComplement },
        value.SignOffset, Byte(value.SignMask));

    private static FrameChecksum ChecksumOf(FrameChecksumOptions options)
    {
        var kind = options.Kind switch { "xor" => ChecksumKind.Xor, "crc8" => ChecksumKind.Crc8, "crc16" => ChecksumKind.Crc16, _ => ChecksumKind.Sum };
        var width = kind == ChecksumKind.Crc16 ? 2 : 1;
        return new FrameChecksum(
            kind, options.At ?? -width, options.From, options.Through ?? -width - 1, Hex(options.Polynomial), Hex(options.Initial),
            options.Bits == "reflected", Hex(options.XorOut), options.Endianness == "big");
    }
}
