using System.Globalization;
using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Protocol.Tests.Scales;

/// <summary>USB HID Point of Sale scales. Published report: 02 00 14 00 is 20 g and 0B FF 34 19 is 645.2 oz, behind the status (gist "Identifying USB-HID scales");
/// the others are worked out from the usage tables.</summary>
public sealed class HidScaleReportTests
{
    [Theory]
    [InlineData("030402001400", "20", MassUnit.Gram, Stability.Stable)]
    [InlineData("03040BFF3419", "645.2", MassUnit.Ounce, Stability.Stable)]
    [InlineData("030402FFD204", "123.4", MassUnit.Gram, Stability.Stable)]
    [InlineData("030402007B00", "123", MassUnit.Gram, Stability.Stable)]
    [InlineData("030403FD1C00", "0.028", MassUnit.Kilogram, Stability.Stable)]
    [InlineData("030202000000", "0", MassUnit.Gram, Stability.Stable)]
    [InlineData("030302FFD704", "123.9", MassUnit.Gram, Stability.Unstable)]
    [InlineData("000402FFD204", "123.4", MassUnit.Gram, Stability.Stable)]
    public void A_weight_with_its_power_of_ten(string hex, string value, MassUnit unit, Stability stability)
    {
        Assert.Equal(LineFault.None, Decode(hex, out var reading));
        Assert.Equal(value, reading.Value.ToString(CultureInfo.InvariantCulture));
        Assert.Equal((LoadRange.Within, unit, stability), (reading.Range, reading.Unit, reading.Stability));
    }

    [Theory]
    [InlineData("03040201D204", "12340", "10")]
    [InlineData("03040200D204", "1234", "1")]
    [InlineData("030402FED204", "12.34", "0.01")]
    public void The_power_of_ten_is_the_step(string hex, string value, string step)
    {
        _ = Decode(hex, out var reading);
        Assert.Equal(value, reading.Value.ToString(CultureInfo.InvariantCulture));
        Assert.Equal(decimal.Parse(step, CultureInfo.InvariantCulture), reading.StepGrams(reading.Unit));
    }

    [Theory]
    [InlineData("030502FF0C00", LoadRange.Underload)]
    [InlineData("03060200FFFF", LoadRange.Overload)]
    public void Out_of_range_is_no_weight(string hex, LoadRange range)
    {
        Assert.Equal(LineFault.None, Decode(hex, out var reading));
        Assert.Equal((range, 0m, MassUnit.None), (reading.Range, reading.Value, reading.Unit));
    }

    [Theory]
    [InlineData("030102FFD204", LineFault.NoValue)]
    [InlineData("030702FFD204", LineFault.NoValue)]
    [InlineData("030802FFD204", LineFault.NoValue)]
    [InlineData("030902FFD204", LineFault.UnknownStatus)]
    [InlineData("030002FFD204", LineFault.UnknownStatus)]
    [InlineData("0404", LineFault.NoValue)]
    [InlineData("030404FFD204", LineFault.UnknownUnit)]
    [InlineData("030405FFD204", LineFault.UnknownUnit)]
    [InlineData("030400FFD204", LineFault.UnknownUnit)]
    [InlineData("0304027FD204", LineFault.BadNumber)]
    [InlineData("03040280D204", LineFault.BadNumber)]
    [InlineData("030402FFD2", LineFault.BadShape)]
    [InlineData("", LineFault.BadShape)]
    public void What_is_no_weight_is_refused(string hex, LineFault fault)
    {
        Assert.Equal(fault, Decode(hex, out var reading));
        Assert.Equal(default, reading);
    }

    private static LineFault Decode(string hex, out ScaleReading reading) => new HidScaleReport().Decode(Convert.FromHexString(hex), out reading);
}
