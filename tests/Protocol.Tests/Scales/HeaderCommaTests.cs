using System.Globalization;
using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Protocol.Tests.Scales;

/// <summary>Vectors: hand-written from the shape of the header-comma family (common practice, no source).</summary>
public sealed class HeaderCommaTests
{
    private readonly HeaderComma decoder = new();

    [Theory]
    [InlineData("ST,GS,+0028.40  g", "28.40", MassUnit.Gram, Stability.Stable, WeightMark.Gross)]
    [InlineData("US,NT,-0000.5 g", "-0.5", MassUnit.Gram, Stability.Unstable, WeightMark.Net)]
    [InlineData("ST,+00123.45  g", "123.45", MassUnit.Gram, Stability.Stable, WeightMark.Unknown)]
    [InlineData("ST,NT,+  28,4 g", "28.4", MassUnit.Gram, Stability.Stable, WeightMark.Net)]
    [InlineData("ST,GS,+  186.4  g", "186.4", MassUnit.Gram, Stability.Stable, WeightMark.Gross)]
    [InlineData("ST,G,+   0.1864kg", "0.1864", MassUnit.Kilogram, Stability.Stable, WeightMark.Gross)]
    [InlineData("US,N,-  186400 mg", "-186400", MassUnit.Milligram, Stability.Unstable, WeightMark.Net)]
    [InlineData("ST,GS,    6.575 OZ", "6.575", MassUnit.Ounce, Stability.Stable, WeightMark.Gross)]
    [InlineData("ST,GS,+  .4109 lb", "0.4109", MassUnit.Pound, Stability.Stable, WeightMark.Gross)]
    [InlineData("ST,GS,+  186.4  G", "186.4", MassUnit.Gram, Stability.Stable, WeightMark.Gross)]
    [InlineData("ST,28,4 g", "28.4", MassUnit.Gram, Stability.Stable, WeightMark.Unknown)]
    [InlineData("WT,GS,+  186.4  g", "186.4", MassUnit.Gram, Stability.Unknown, WeightMark.Gross)]
    [InlineData("  ST,GS,-  186.4  g   ", "-186.4", MassUnit.Gram, Stability.Stable, WeightMark.Gross)]
    public void A_weight_is_read_with_its_digits_and_marks(string line, string shown, MassUnit unit, Stability stability, WeightMark mark)
    {
        var value = decimal.Parse(shown, CultureInfo.InvariantCulture);
        var (fault, reading) = decoder.Read(line);
        Assert.Equal(LineFault.None, fault);
        Assert.Equal(new(LoadRange.Within, value, unit, stability, mark), reading);
        Assert.Equal(value.Scale, reading.Value.Scale);
    }

    [Theory]
    [InlineData("OL,GS,+9999999  g", LoadRange.Overload, WeightMark.Gross)]
    [InlineData("OL,NT,+9999999E+19", LoadRange.Overload, WeightMark.Net)]
    [InlineData("OL,GS,         ", LoadRange.Overload, WeightMark.Gross)]
    [InlineData("OL,GS,---------  g", LoadRange.Overload, WeightMark.Gross)]
    [InlineData("OL,+        g", LoadRange.Overload, WeightMark.Unknown)]
    [InlineData("OL", LoadRange.Overload, WeightMark.Unknown)]
    [InlineData("UL,GS,-9999999  g", LoadRange.Underload, WeightMark.Gross)]
    [InlineData("UL,,", LoadRange.Underload, WeightMark.Unknown)]
    public void A_load_out_of_range_has_no_value_whatever_stands_there(string line, LoadRange range, WeightMark mark) =>
        Assert.Equal((LineFault.None, new(range, 0, MassUnit.None, Stability.Unknown, mark)), decoder.Read(line));

    [Theory]
    [InlineData("QT,+0000012 PC", LineFault.UnknownUnit)]
    [InlineData("QT,+0000012  g", LineFault.UnknownUnit)]
    [InlineData("ST,GS,+0000012 PC", LineFault.UnknownUnit)]
    [InlineData("ST,GS,+  28.40", LineFault.UnknownUnit)]
    [InlineData("ST,GS,+  28.40  k", LineFault.UnknownUnit)]
    [InlineData("ST,GS,+  28.40 ozt", LineFault.UnknownUnit)]
    [InlineData("ST,GS,+  28.40 g S", LineFault.UnknownUnit)]
    [InlineData("ST,GS,+  98.40  %", LineFault.UnknownUnit)]
    [InlineData("ST,TR,+    8.2  g", LineFault.NoValue)]
    [InlineData("HD,GS,+  186.4  g", LineFault.NoValue)]
    [InlineData("TL,GS,+ 1864.0  g", LineFault.NoValue)]
    [InlineData("XX,GS,+  186.4  g", LineFault.UnknownStatus)]
    [InlineData("ST,PT,+  186.4  g", LineFault.UnknownStatus)]
    [InlineData("ST,GS,+  1,186.4  g", LineFault.BadNumber)]
    [InlineData("ST,GS,+  12.3.4  g", LineFault.BadNumber)]
    [InlineData("ST,GS,+  1 234.5  g", LineFault.BadNumber)]
    [InlineData("ST,GS,+  28.  g", LineFault.BadNumber)]
    [InlineData("ST,GS,+-  28.4  g", LineFault.BadNumber)]
    [InlineData("ST,GS,   28.4-  g", LineFault.BadNumber)]
    [InlineData("ST,GS,+  ----  g", LineFault.BadNumber)]
    [InlineData("ST,GS,+        g", LineFault.BadNumber)]
    [InlineData("ST,GS", LineFault.BadNumber)]
    [InlineData("ST,GS,+123456789012345678 g", LineFault.BadNumber)]
    [InlineData("ST,GS,+99999999999999999999999999999999999999 g", LineFault.BadNumber)]
    [InlineData("ST,GS,+0.000000000000000001 g", LineFault.BadNumber)]
    [InlineData("0028.40  g", LineFault.BadShape)]
    [InlineData("T,GS,+0028.40  g", LineFault.BadShape)]
    [InlineData("st,gs,+0028.40  g", LineFault.BadShape)]
    [InlineData("OLD RECORD 5 g", LineFault.BadShape)]
    [InlineData("", LineFault.BadShape)]
    [InlineData("   ", LineFault.BadShape)]
    public void A_line_that_cannot_be_trusted_is_refused(string line, LineFault fault) =>
        Assert.Equal((fault, default(ScaleReading)), decoder.Read(line));

    [Fact]
    public void Bytes_of_a_wrong_parity_are_refused_and_never_stripped()
    {
        var line = Wire.Bytes("ST,GS,+0028.40  g");
        for (var at = 0; at < line.Length; at++)
        {
            var spoilt = line.ToArray();
            spoilt[at] |= 0x80;
            Assert.Equal(LineFault.BadShape, decoder.Decode(spoilt, out _));
        }
    }

    [Fact]
    public void Leading_zeros_do_not_count_as_digits() =>
        Assert.Equal(28.40m, decoder.Read("ST,GS,+00000000000000000000028.40 g").Reading.Value);

    [Fact]
    public void A_negative_zero_is_zero() =>
        Assert.False(decimal.IsNegative(decoder.Read("ST,GS,-   0.0  g").Reading.Value));
}
