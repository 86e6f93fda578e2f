using System.Globalization;
using CaptureAgent.Protocol.Frames;
using CaptureAgent.Protocol.Scales;
using CsCheck;

namespace CaptureAgent.Protocol.Tests.Frames;

/// <summary>Described frames. The layouts are invented: no maker's.</summary>
public sealed class FrameDecoderTests
{
    /// <summary>A5, flags, three bytes of a number (high byte first), unit, sum.</summary>
    private static readonly FrameDescription Layout = new(new FrameField(2, 3, IsBigEndian: true, FrameSign.Bit, 1, 0x80), 0.1m)
    {
        MinLength = 7,
        Begins = new byte[] { 0xA5 },
        Stable = new FrameBit(1, 0x01, SetMeansStable: true),
        Units = new FrameUnits(5, 0x0F, new Dictionary<byte, string> { [0] = "g", [1] = "kg", [2] = "oz" }),
        Checksum = new FrameChecksum(ChecksumKind.Sum, -1, 0, -2),
    };

    [Theory]
    [InlineData("A501000748F0E5", "186.4", MassUnit.Gram, Stability.Stable)]
    [InlineData("A580000052F067", "-8.2", MassUnit.Gram, Stability.Unstable)]
    [InlineData("A500000002F299", "0.2", MassUnit.Ounce, Stability.Unstable)]
    public void A_described_frame_is_read(string hex, string value, MassUnit unit, Stability stability)
    {
        var fault = new FrameScale(Layout, MassUnit.Gram).Decode(Convert.FromHexString(hex), out var reading);
        Assert.Equal(LineFault.None, fault);
        Assert.Equal((value, unit, stability), (reading.Value.ToString(CultureInfo.InvariantCulture), reading.Unit, reading.Stability));
    }

    [Theory]
    [InlineData("A501000748F0E6", LineFault.BadCheck)]
    [InlineData("A401000748F0E4", LineFault.NoValue)]
    [InlineData("A501000748F0", LineFault.BadShape)]
    [InlineData("A501000748F3E8", LineFault.UnknownUnit)]
    [InlineData("", LineFault.NoValue)]
    public void What_does_not_fit_the_description_is_refused(string hex, LineFault fault)
    {
        Assert.Equal(fault, new FrameScale(Layout, MassUnit.Gram).Decode(Convert.FromHexString(hex), out var reading));
        Assert.Equal(default, reading);
    }

    [Theory]
    [InlineData("0A01", false, false, 0x010A)]
    [InlineData("0A01", true, false, 0x0A01)]
    [InlineData("FFFE", true, true, -2)]
    [InlineData("FEFF", false, true, -2)]
    [InlineData("FEFF", false, false, 0xFFFE)]
    public void Endianness_and_sign(string hex, bool big, bool hasSign, long value)
    {
        Assert.True(new FrameField(0, 2, big, hasSign ? FrameSign.TwosComplement : FrameSign.None).TryRead(Convert.FromHexString(hex), out var read));
        Assert.Equal(value, read);
    }

    [Fact]
    public void A_place_may_be_counted_from_the_end()
    {
        Assert.True(new FrameField(-2, 2, IsBigEndian: true).TryRead([9, 1, 2], out var read));
        Assert.Equal(0x0102, read);
        Assert.False(new FrameField(-4, 2).TryRead([9, 1, 2], out _));
        Assert.False(new FrameField(2, 2).TryRead([9, 1, 2], out _));
    }

    [Fact]
    public void A_probe_s_frame_is_read_in_either_unit()
    {
        FrameDescription layout = new(new FrameField(0, 2, Sign: FrameSign.TwosComplement), 0.1m);
        Assert.Equal(LineFault.None, new FrameProbe(layout, isFahrenheit: true).Decode([0x10, 0x04], out var warm));
        Assert.Equal(40m, warm.Celsius);
        Assert.Equal(LineFault.None, new FrameProbe(layout, isFahrenheit: false).Decode([0xFB, 0xFF], out var cold));
        Assert.Equal((-0.5m, 0.1m), (cold.Celsius, cold.ResolutionCelsius));
    }

    [Fact]
    public void Every_number_that_fits_its_width_comes_back() => Gen.Select(Gen.Int[1, 4], Gen.Bool, Gen.Long[-(1L << 31), (1L << 31) - 1], Gen.Int[0, 5]).Sample((width, big, any, offset) =>
    {
        var unused = 64 - 8 * width;
        var value = any << unused >> unused;
        var frame = new byte[offset + width];
        for (var i = 0; i < width; i++)
            frame[offset + (big ? width - 1 - i : i)] = unchecked((byte)(value >> 8 * i));
        Assert.True(new FrameField(offset, width, big, FrameSign.TwosComplement).TryRead(frame, out var read));
        Assert.Equal(value, read);
    });
}
