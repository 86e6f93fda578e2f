using System.Globalization;
using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Protocol.Tests.Scales;

/// <summary>Vectors: hand-written from the shape of the request-reply family (common practice, no source).</summary>
public sealed class RequestReplyTests
{
    private readonly RequestReply decoder = new();

    [Theory]
    [InlineData("S S      28.40 g", "28.40", MassUnit.Gram, Stability.Stable)]
    [InlineData("S D      28.37 g", "28.37", MassUnit.Gram, Stability.Unstable)]
    [InlineData("S S     -28.40 g", "-28.40", MassUnit.Gram, Stability.Stable)]
    [InlineData("S D  0.0284000kg", "0.0284000", MassUnit.Kilogram, Stability.Unstable)]
    [InlineData("S S     1.0018 oz", "1.0018", MassUnit.Ounce, Stability.Stable)]
    public void A_weight_is_read_with_its_digits(string line, string shown, MassUnit unit, Stability stability)
    {
        var value = decimal.Parse(shown, CultureInfo.InvariantCulture);
        var (fault, reading) = decoder.Read(line);
        Assert.Equal(LineFault.None, fault);
        Assert.Equal(new(LoadRange.Within, value, unit, stability, WeightMark.Unknown), reading);
        Assert.Equal(value.Scale, reading.Value.Scale);
    }

    [Theory]
    [InlineData("S +", LoadRange.Overload)]
    [InlineData("S -", LoadRange.Underload)]
    [InlineData("S + ", LoadRange.Overload)]
    public void A_load_out_of_range_has_no_value(string line, LoadRange range) =>
        Assert.Equal((LineFault.None, new(range, 0, MassUnit.None, Stability.Unknown, WeightMark.Unknown)), decoder.Read(line));

    [Theory]
    [InlineData("S I", LineFault.NoValue)]
    [InlineData("S L", LineFault.NoValue)]
    [InlineData("ES", LineFault.NoValue)]
    [InlineData("ET", LineFault.NoValue)]
    [InlineData("EL", LineFault.NoValue)]
    [InlineData("Z A", LineFault.NoValue)]
    [InlineData("Z I", LineFault.NoValue)]
    [InlineData("ZI D", LineFault.NoValue)]
    [InlineData("T S      28.40 g", LineFault.NoValue)]
    [InlineData("T I", LineFault.NoValue)]
    [InlineData("I4 A \"0123456\"", LineFault.NoValue)]
    [InlineData("S X      28.40 g", LineFault.UnknownStatus)]
    [InlineData("SX", LineFault.UnknownStatus)]
    [InlineData("S S28.40 g", LineFault.UnknownStatus)]
    [InlineData("S S      28.40", LineFault.UnknownUnit)]
    [InlineData("S S      28.40 ct", LineFault.UnknownUnit)]
    [InlineData("S S      28.4.0 g", LineFault.BadNumber)]
    [InlineData("S S      1,028.40 g", LineFault.BadNumber)]
    [InlineData("S S", LineFault.BadNumber)]
    [InlineData("S +      28.40 g", LineFault.BadShape)]
    [InlineData("S", LineFault.UnknownStatus)]
    [InlineData("      28.40 g", LineFault.BadShape)]
    [InlineData("ES      28.40 g", LineFault.UnknownStatus)]
    [InlineData("", LineFault.BadShape)]
    [InlineData("S S      \xB2" + "8.40 g", LineFault.BadShape)]
    public void An_answer_without_a_weight_says_why(string line, LineFault fault) =>
        Assert.Equal((fault, default(ScaleReading)), decoder.Read(line));

    [Fact]
    public void Commands_are_what_the_family_understands()
    {
        Assert.Equal("SI\r\n", Wire.Text(RequestReply.AskNow));
        Assert.Equal("S\r\n", Wire.Text(RequestReply.AskStable));
        Assert.Equal("Z\r\n", Wire.Text(RequestReply.Zero));
        Assert.Equal("T\r\n", Wire.Text(RequestReply.Tare));
    }
}
