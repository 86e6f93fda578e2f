using CaptureAgent.Protocol.Codes;

namespace CaptureAgent.Protocol.Tests.Codes;

/// <summary>ISO 11784 numbers: 3 digits of country and 12 of a national code of 38 bits. 999.123456789012 and 528.140000795552 are the examples of open decoders
/// (proxmark3, ISO11784Tools).</summary>
public sealed class TransponderTests
{
    [Theory]
    [InlineData("999123456789012", "999123456789012")]
    [InlineData("999 123456789012", "999123456789012")]
    [InlineData("528.140000795552", "528140000795552")]
    [InlineData("528-140000795552", "528140000795552")]
    [InlineData(" 036000000000001 ", "036000000000001")]
    [InlineData("001274877906943", "001274877906943")]
    public void Fifteen_digits_are_a_code_with_its_zeros(string line, string code)
    {
        Assert.True(Transponder.TryRead(line, out var read));
        Assert.Equal(code, read);
    }

    [Theory]
    [InlineData("000123456789012")]
    [InlineData("99912345678901")]
    [InlineData("9991234567890123")]
    [InlineData("9991 23456789012")]
    [InlineData("999  123456789012")]
    [InlineData("999/123456789012")]
    [InlineData("3E7.1CBE991A14")]
    [InlineData("0A1B2C3D4E")]
    [InlineData("999274877906944")]
    [InlineData("٩٩٩123456789012")]
    [InlineData("")]
    public void Anything_else_is_none(string line)
    {
        Assert.False(Transponder.TryRead(line, out var read));
        Assert.Equal("", read);
    }
}
