using System.Text;
using CaptureAgent.Simulators.Instruments;
using CaptureAgent.Simulators.Instruments.Encoders;
using CaptureAgent.Simulators.Physics.Scales;
using CsCheck;
using Xunit;

namespace CaptureAgent.Simulators.Tests.Instruments;

/// <summary>Expected lines are written by hand after the public line shapes; no published vector.</summary>
public sealed class EncoderTests
{
    private static ScaleSample Sample(decimal value, bool? stable = true, bool net = false, DisplayUnit unit = DisplayUnit.Gram, ShownRange range = ShownRange.Within) =>
        new(1, range, value, unit, stable, net);

    [Fact]
    public void Header_comma_lines()
    {
        var encoder = new HeaderComma();
        Assert.Equal("ST,GS,+  186.4  g\r\n", encoder.Encode(Sample(186.4m)));
        Assert.Equal("US,NT,-    8.2  g\r\n", encoder.Encode(Sample(-8.2m, stable: false, net: true)));
        Assert.Equal("ST,GS,+ 0.1864 kg\r\n", encoder.Encode(Sample(0.1864m, unit: DisplayUnit.Kilogram)));
        Assert.Equal("OL,GS,+9999999  g\r\n", encoder.Encode(Sample(0, range: ShownRange.Over)));
    }

    [Fact]
    public void Sign_value_lines()
    {
        var encoder = new SignValue();
        Assert.Equal("+    186.4 g  \r\n", encoder.Encode(Sample(186.4m)));
        Assert.Equal("-      0.2    \r\n", encoder.Encode(Sample(-0.2m, stable: false)));
        Assert.Equal("- --------     \r\n", encoder.Encode(Sample(0, range: ShownRange.Under)));
    }

    [Fact]
    public void Scale_that_answers_takes_commands_in_any_pieces()
    {
        var encoder = new RequestReply();
        var scale = new GramScale(new(), 1);
        Assert.Equal("", encoder.Answer("S"u8, Sample(28.4m), scale));
        Assert.Equal("S S       28.4 g\r\n", encoder.Answer("I\r\n"u8, Sample(28.4m), scale));
        Assert.Equal("S D       28.3 g\r\nS I\r\n", encoder.Answer("SI\r\nS\r\n"u8, Sample(28.3m, stable: false), scale));
        Assert.Equal("S +\r\nZ A\r\nES\r\n", encoder.Answer("SI\r\nZ\r\nXX\r\n"u8, Sample(0, range: ShownRange.Over), scale));
        Assert.Equal("S I\r\n", encoder.Answer("SI\r\n"u8, null, scale));
    }

    [Fact]
    public void Probe_line() => Assert.Equal("39.8 C\r\n", TextProbe.Encode(39.8m));

    [Fact]
    public void Splitting_and_merging_lose_nothing() =>
        Gen.Select(Gen.String[Gen.Char['!', '~'], 1, 20].List[1, 40], Gen.ULong).Sample((lines, seed) =>
        {
            var wire = new FaultyLine(new() { Split = 0.5, Merge = 0.3 }, seed);
            var came = "";
            foreach (var line in lines)
            {
                foreach (var write in wire.Take(Encoding.Latin1.GetBytes(line + "\n")))
                    came += Encoding.Latin1.GetString(write);
            }

            return string.Concat(lines.Select(line => line + "\n")).StartsWith(came, StringComparison.Ordinal);
        });

    [Fact]
    public void Garbage_and_corruption_do_their_harm()
    {
        var wire = new FaultyLine(new() { Garbage = 1 }, 1);
        Assert.True(Assert.Single(wire.Take("12.3 g\r\n"u8)).Length > 8);
        var broken = new FaultyLine(new() { Corrupt = 1 }, 1);
        Assert.NotEqual("12.3 g\r\n"u8.ToArray(), Assert.Single(broken.Take("12.3 g\r\n"u8)));
    }
}
