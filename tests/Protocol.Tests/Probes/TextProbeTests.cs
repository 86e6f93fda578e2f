using System.Globalization;
using CaptureAgent.Protocol.Probes;

namespace CaptureAgent.Protocol.Tests.Probes;

public sealed class TextProbeTests
{
    private readonly TextProbe decoder = new();

    [Theory]
    [InlineData("39.8 C", "39.8", "0.1")]
    [InlineData("39.8 \xB0" + "C", "39.8", "0.1")]
    [InlineData("39.8\xC2\xB0" + "C", "39.8", "0.1")]
    [InlineData("  +39,80 \xB0 C  ", "39.80", "0.01")]
    [InlineData("-0.5C", "-0.5", "0.1")]
    [InlineData("40 C", "40", "1")]
    [InlineData("-273.15 C", "-273.15", "0.01")]
    public void Celsius_keeps_its_digits(string line, string celsius, string step)
    {
        var (fault, reading) = decoder.Read(line);
        Assert.Equal(LineFault.None, fault);
        Assert.Equal(celsius, reading.Celsius.ToString(CultureInfo.InvariantCulture));
        Assert.Equal(decimal.Parse(step, CultureInfo.InvariantCulture), reading.ResolutionCelsius);
    }

    // Fixed points of the scale: (F - 32) / 1.8, NIST SP 811, appendix B.8.
    [Theory]
    [InlineData("98.6 F", "37")]
    [InlineData("98.60 \xB0" + "F", "37")]
    [InlineData("212\xC2\xB0" + "F", "100")]
    [InlineData("32 F", "0")]
    [InlineData("-40 F", "-40")]
    [InlineData("-459.67 F", "-273.15")]
    public void Fahrenheit_converts_exactly(string line, string celsius)
    {
        var (fault, reading) = decoder.Read(line);
        Assert.Equal(LineFault.None, fault);
        Assert.Equal(decimal.Parse(celsius, CultureInfo.InvariantCulture), reading.Celsius);
    }

    [Fact]
    public void Fahrenheit_keeps_the_step_of_its_last_digit()
    {
        var reading = decoder.Read("104.1 F").Reading;
        Assert.Equal(0.5m, Math.Round(reading.ResolutionCelsius * 9, 20));
        Assert.Equal(104.1m - 32m, Math.Round(reading.Celsius * 9 / 5, 20));
    }

    [Theory]
    [InlineData("39.8", LineFault.UnknownUnit)]
    [InlineData("39.8 \xB0", LineFault.UnknownUnit)]
    [InlineData("39.8 K", LineFault.UnknownUnit)]
    [InlineData("39.8 C F", LineFault.UnknownUnit)]
    [InlineData("39.8 CC", LineFault.UnknownUnit)]
    [InlineData("39.8 g", LineFault.UnknownUnit)]
    [InlineData("39.8.1 C", LineFault.BadNumber)]
    [InlineData("1,039.8 C", LineFault.BadNumber)]
    [InlineData("39 8 C", LineFault.BadNumber)]
    [InlineData("T=39.8 C", LineFault.BadNumber)]
    [InlineData("SET 40.0 C", LineFault.BadNumber)]
    [InlineData("--.- C", LineFault.BadNumber)]
    [InlineData("NaN C", LineFault.BadNumber)]
    [InlineData("-273.16 C", LineFault.BadNumber)]
    [InlineData("-500 F", LineFault.BadNumber)]
    [InlineData("", LineFault.BadNumber)]
    [InlineData("39.8 \xC2 C", LineFault.BadShape)]
    [InlineData("39.8 \xB0\xB0" + "C", LineFault.BadShape)]
    [InlineData("39.8 \xC3", LineFault.BadShape)]
    [InlineData("\xB3\xB9.\xB8 C", LineFault.BadShape)]
    public void A_line_that_cannot_be_trusted_is_refused(string line, LineFault fault) =>
        Assert.Equal((fault, default(ProbeReading)), decoder.Read(line));
}
