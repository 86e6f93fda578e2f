using System.Globalization;
using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Protocol.Tests.Scales;

/// <summary>Vectors: hand-written from the shape of the sign-value families (common practice, no source).</summary>
public sealed class SignValueTests
{
    private readonly SignValue decoder = new();

    [Theory]
    [InlineData("+    28.40 g  ", "28.40", MassUnit.Gram, Stability.Unknown, WeightMark.Unknown)]
    [InlineData("+    28.40    ", "28.40", MassUnit.None, Stability.Unstable, WeightMark.Unknown)]
    [InlineData("-     0.02 g  ", "-0.02", MassUnit.Gram, Stability.Unknown, WeightMark.Unknown)]
    [InlineData("N     +    28.40 g  ", "28.40", MassUnit.Gram, Stability.Unknown, WeightMark.Net)]
    [InlineData("G     -   186.40 g  ", "-186.40", MassUnit.Gram, Stability.Unknown, WeightMark.Gross)]
    [InlineData("G     +   186.40    ", "186.40", MassUnit.None, Stability.Unstable, WeightMark.Gross)]
    [InlineData("   0.0oz", "0.0", MassUnit.Ounce, Stability.Unknown, WeightMark.Unknown)]
    [InlineData("+  28,40 kg", "28.40", MassUnit.Kilogram, Stability.Unknown, WeightMark.Unknown)]
    [InlineData("  28.4 g ?", "28.4", MassUnit.Gram, Stability.Unstable, WeightMark.Unknown)]
    [InlineData("  28.4 g U", "28.4", MassUnit.Gram, Stability.Unstable, WeightMark.Unknown)]
    [InlineData("  28.4 g S", "28.4", MassUnit.Gram, Stability.Stable, WeightMark.Unknown)]
    [InlineData("  28.4 g *", "28.4", MassUnit.Gram, Stability.Unknown, WeightMark.Unknown)]
    [InlineData(".5g", "0.5", MassUnit.Gram, Stability.Unknown, WeightMark.Unknown)]
    public void A_weight_is_read_with_its_digits(string line, string shown, MassUnit unit, Stability stability, WeightMark mark)
    {
        var value = decimal.Parse(shown, CultureInfo.InvariantCulture);
        var (fault, reading) = decoder.Read(line);
        Assert.Equal(LineFault.None, fault);
        Assert.Equal(new(LoadRange.Within, value, unit, stability, mark), reading);
        Assert.Equal(value.Scale, reading.Value.Scale);
    }

    [Theory]
    [InlineData("       H     ", LoadRange.Overload)]
    [InlineData("       L     ", LoadRange.Underload)]
    [InlineData("      High    ", LoadRange.Overload)]
    [InlineData("      Low     ", LoadRange.Underload)]
    [InlineData("      OL      ", LoadRange.Overload)]
    [InlineData("OL     g", LoadRange.Overload)]
    [InlineData("O-LOAD g", LoadRange.Overload)]
    [InlineData("High            ", LoadRange.Overload)]
    [InlineData("Stat       Low        ", LoadRange.Underload)]
    [InlineData("- OL", LoadRange.Underload)]
    [InlineData("  --------    ", LoadRange.Overload)]
    [InlineData("--------", LoadRange.Overload)]
    [InlineData("-------- g", LoadRange.Overload)]
    [InlineData("+ --------    ", LoadRange.Overload)]
    [InlineData("+--------", LoadRange.Overload)]
    [InlineData("- --------    ", LoadRange.Underload)]
    [InlineData("-   ------ g  ", LoadRange.Underload)]
    [InlineData("G     - --------    ", LoadRange.Underload)]
    [InlineData("---------", LoadRange.Overload)] // a run in the sign's column is taken for a longer run
    [InlineData("  ________    ", LoadRange.Underload)]
    public void A_load_out_of_range_has_no_value(string line, LoadRange range)
    {
        var (fault, reading) = decoder.Read(line);
        Assert.Equal(LineFault.None, fault);
        Assert.Equal((range, 0m, MassUnit.None), (reading.Range, reading.Value, reading.Unit));
    }

    [Theory]
    [InlineData("12.3.4 g", LineFault.BadNumber)]
    [InlineData("1 234.5 g", LineFault.BadNumber)]
    [InlineData("+ 1,234.5 g", LineFault.BadNumber)]
    [InlineData("+ - 28.4 g", LineFault.BadNumber)]
    [InlineData("+    28.40 PCS", LineFault.UnknownUnit)]
    [InlineData("+    28.40 ct ", LineFault.UnknownUnit)]
    [InlineData("+    28.40 GN ", LineFault.UnknownUnit)]
    [InlineData("  1 lb 3.4 oz", LineFault.UnknownStatus)]
    [InlineData("  28.4 ?", LineFault.UnknownUnit)]
    [InlineData("  28.4 g !", LineFault.UnknownStatus)]
    [InlineData("T     +     8.20 g  ", LineFault.NoValue)]
    [InlineData("Qnt   +       12 pcs", LineFault.UnknownStatus)]
    [InlineData("      Err 54  ", LineFault.NoValue)]
    [InlineData("Err 54", LineFault.NoValue)]
    [InlineData("2026-03-02 05:41", LineFault.BadNumber)]
    [InlineData("weight 28.4 g", LineFault.UnknownStatus)]
    [InlineData("N 28.4 g", LineFault.BadNumber)] // not in six columns
    [InlineData("-", LineFault.BadShape)]
    [InlineData("+       g  ", LineFault.BadShape)]
    [InlineData("hello", LineFault.BadShape)]
    [InlineData("", LineFault.BadShape)]
    [InlineData("   ", LineFault.BadShape)]
    [InlineData("\xB2\xB1.\xB4 g", LineFault.BadShape)]
    [InlineData("+    28.40 \xE7", LineFault.BadShape)]
    public void A_line_that_cannot_be_trusted_is_refused(string line, LineFault fault) =>
        Assert.Equal((fault, default(ScaleReading)), decoder.Read(line));
}
