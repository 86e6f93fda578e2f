using System.Buffers.Binary;
using System.Globalization;
using CaptureAgent.Protocol.Encoding;
using CsCheck;

namespace CaptureAgent.Protocol.Tests.Encoding;

/// <summary>FLOAT and SFLOAT against the tables of HL7's Personal Health Device implementation guide (page FLOATS, build.fhir.org/ig/HL7/phd/FLOATS.html)
/// and the Bluetooth SIG's white paper on transcoding, 2.2.1. Vectors of decoders that read the exponent with a bias are wrong against these.</summary>
public sealed class MedicalFloatTests
{
    [Theory]
    [InlineData("FF00016C", "36.4", "0.1")]
    [InlineData("FE000D97", "34.79", "0.01")]
    [InlineData("00FFFFFF", "-1", "1")]
    [InlineData("00000002", "2", "1")]
    [InlineData("FF000014", "2.0", "0.1")]
    [InlineData("FE0000C8", "2.00", "0.01")]
    [InlineData("01000002", "20", "10")]
    [InlineData("00FFFB2E", "-1234", "1")]
    public void A_float_keeps_the_digits_of_its_exponent(string word, string value, string resolution)
    {
        var number = MedicalFloat.Read32(Word32(word));
        Assert.Equal(MedicalFloatKind.Finite, number.Kind);
        Assert.Equal(value, number.Value.ToString(CultureInfo.InvariantCulture));
        Assert.Equal(decimal.Parse(resolution, CultureInfo.InvariantCulture), number.Resolution);
    }

    [Theory]
    [InlineData("0072", "114", "1")]
    [InlineData("B076", "0.00118", "0.00001")]
    [InlineData("F014", "2.0", "0.1")]
    [InlineData("E0C8", "2.00", "0.01")]
    [InlineData("1002", "20", "10")]
    [InlineData("0B2E", "-1234", "1")]
    public void A_short_float_keeps_the_digits_of_its_exponent(string word, string value, string resolution)
    {
        var number = MedicalFloat.Read16(Word16(word));
        Assert.Equal(MedicalFloatKind.Finite, number.Kind);
        Assert.Equal(value, number.Value.ToString(CultureInfo.InvariantCulture));
        Assert.Equal(decimal.Parse(resolution, CultureInfo.InvariantCulture), number.Resolution);
    }

    // The same source; a special mantissa counts whatever its exponent.
    [Theory]
    [InlineData("7FFFFF", "7FF", MedicalFloatKind.NotANumber)]
    [InlineData("800000", "800", MedicalFloatKind.NotAtThisResolution)]
    [InlineData("7FFFFE", "7FE", MedicalFloatKind.PositiveInfinity)]
    [InlineData("800002", "802", MedicalFloatKind.NegativeInfinity)]
    [InlineData("800001", "801", MedicalFloatKind.Reserved)]
    public void Special_values_are_no_numbers_whatever_their_exponent(string mantissa32, string mantissa16, MedicalFloatKind kind)
    {
        foreach (var exponent in (string[])["00", "FF", "FE", "01", "7F", "80"])
            Assert.Equal(new MedicalFloat(kind, 0, 0), MedicalFloat.Read32(Word32(exponent + mantissa32)));
        foreach (var exponent in (string[])["0", "F", "E", "1", "7", "8"])
            Assert.Equal(new MedicalFloat(kind, 0, 0), MedicalFloat.Read16(Word16(exponent + mantissa16)));
    }

    [Fact]
    public void The_largest_mantissas_beside_the_special_ones_are_numbers()
    {
        Assert.Equal(8388605m, MedicalFloat.Read32(Word32("007FFFFD")).Value);
        Assert.Equal(-8388605m, MedicalFloat.Read32(Word32("00800003")).Value);
        Assert.Equal(2045m, MedicalFloat.Read16(Word16("07FD")).Value);
        Assert.Equal(-2045m, MedicalFloat.Read16(Word16("0803")).Value);
    }

    [Theory]
    [InlineData("7F000001")]
    [InlineData("80000001")]
    [InlineData("197FFFF0")]
    public void A_power_that_no_decimal_holds_is_told_apart(string word) =>
        Assert.Equal(MedicalFloatKind.TooLarge, MedicalFloat.Read32(Word32(word)).Kind);

    [Fact]
    public void Every_number_comes_back_from_its_words() => Gen.Select(Gen.Int[-8388605, 8388605], Gen.Int[-12, 12]).Sample((mantissa, exponent) =>
    {
        var bytes = new byte[4];
        BinaryPrimitives.WriteInt32LittleEndian(bytes, exponent << 24 | mantissa & 0xFFFFFF);
        var number = MedicalFloat.Read32(bytes);
        Assert.Equal(MedicalFloatKind.Finite, number.Kind);
        Assert.Equal(mantissa * number.Resolution, number.Value);
        Assert.Equal((decimal)Math.Pow(10, exponent), number.Resolution, 15);
    });

    [Fact]
    public void Any_word_is_read_without_a_throw() => Gen.Byte.Array[4].Sample(bytes =>
    {
        Assert.True(Enum.IsDefined(MedicalFloat.Read32(bytes).Kind));
        Assert.True(Enum.IsDefined(MedicalFloat.Read16(bytes).Kind));
    }, iter: 50_000);

    private static byte[] Word32(string hex)
    {
        var bytes = new byte[4];
        BinaryPrimitives.WriteUInt32LittleEndian(bytes, uint.Parse(hex, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture));
        return bytes;
    }

    private static byte[] Word16(string hex)
    {
        var bytes = new byte[2];
        BinaryPrimitives.WriteUInt16LittleEndian(bytes, ushort.Parse(hex, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture));
        return bytes;
    }
}
