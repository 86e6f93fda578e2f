using CaptureAgent.Protocol.Frames;

namespace CaptureAgent.Protocol.Tests.Frames;

/// <summary>Check values of "123456789" from the Catalogue of parametrised CRC algorithms (reveng.sourceforge.io/crc-catalogue): MODBUS 4B37 and KERMIT 2189 are
/// also in the Modbus and FDX-B literature; the others are from memory.</summary>
public sealed class FrameChecksumTests
{
    private static readonly byte[] Check = [.. "123456789"u8];

    [Theory]
    [InlineData("SMBUS", 0x07, 0x00, false, 0x00, 0xF4)]
    [InlineData("MAXIM-DOW", 0x31, 0x00, true, 0x00, 0xA1)]
    [InlineData("NRSC-5", 0x31, 0xFF, false, 0x00, 0xF7)]
    [InlineData("I-432-1", 0x07, 0x00, false, 0x55, 0xA1)]
    public void Crcs_of_eight_bits(string name, int polynomial, int initial, bool reflected, int xorOut, int check) =>
        Assert.Equal((name, check), (name, new FrameChecksum(ChecksumKind.Crc8, -1, 0, -2, polynomial, initial, reflected, xorOut).Compute(Check)));

    [Theory]
    [InlineData("MODBUS", 0x8005, 0xFFFF, true, 0x0000, 0x4B37)]
    [InlineData("KERMIT", 0x1021, 0x0000, true, 0x0000, 0x2189)]
    [InlineData("XMODEM", 0x1021, 0x0000, false, 0x0000, 0x31C3)]
    [InlineData("IBM-3740", 0x1021, 0xFFFF, false, 0x0000, 0x29B1)]
    [InlineData("IBM-SDLC", 0x1021, 0xFFFF, true, 0xFFFF, 0x906E)]
    [InlineData("ARC", 0x8005, 0x0000, true, 0x0000, 0xBB3D)]
    public void Crcs_of_sixteen_bits(string name, int polynomial, int initial, bool reflected, int xorOut, int check) =>
        Assert.Equal((name, check), (name, new FrameChecksum(ChecksumKind.Crc16, -2, 0, -3, polynomial, initial, reflected, xorOut).Compute(Check)));

    // Modbus over Serial Line 1.02: the low byte of the CRC is sent first.
    [Theory]
    [InlineData("01030000000AC5CD")]
    [InlineData("010300000002C40B")]
    [InlineData("1103006B00037687")]
    [InlineData("01030400010BB8ACB1")]
    [InlineData("018302C0F1")]
    public void Modbus_frames_hold(string hex)
    {
        FrameChecksum modbus = new(ChecksumKind.Crc16, -2, 0, -3, 0x8005, 0xFFFF, IsReflected: true);
        var frame = Convert.FromHexString(hex);
        Assert.True(modbus.Holds(frame));
        for (var i = 0; i < frame.Length; i++)
        {
            var damaged = frame.ToArray();
            damaged[i] ^= 0x10;
            Assert.False(modbus.Holds(damaged));
        }
    }

    [Fact]
    public void A_sum_and_an_exclusive_or_cover_what_they_are_told_to()
    {
        Assert.True(new FrameChecksum(ChecksumKind.Sum, -1, 0, -2).Holds([0xAC, 0x40, 0xF0, 0xDC]));
        Assert.True(new FrameChecksum(ChecksumKind.Sum, 0, 1, -1).Holds([0x30, 0x40, 0xF0]));
        Assert.True(new FrameChecksum(ChecksumKind.Xor, -1, 1, -2).Holds([0x02, 0x2B, 0x30, 0x1B]));
        // The sum of all with its two's complement is nothing.
        Assert.True(new FrameChecksum(ChecksumKind.Sum, -1, 0, -2, Initial: 0xFF, XorOut: 0xFF).Holds([0x01, 0x02, 0x03, 0xFA]));
    }

    [Theory]
    [InlineData("")]
    [InlineData("00")]
    [InlineData("0000")]
    public void A_frame_too_short_for_it_does_not_hold(string hex) =>
        Assert.False(new FrameChecksum(ChecksumKind.Crc16, -2, 0, -3, 0x1021).Holds(Convert.FromHexString(hex)));
}
