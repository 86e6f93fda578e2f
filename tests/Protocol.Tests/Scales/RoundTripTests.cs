using CaptureAgent.Protocol.Scales;
using CsCheck;

namespace CaptureAgent.Protocol.Tests.Scales;

/// <summary>Every weight that a scale can write is read back. The writer here knows nothing of the decoders: it works on digits.</summary>
public sealed class RoundTripTests
{
    private static readonly (string Text, MassUnit Unit)[] Units =
        [("g", MassUnit.Gram), ("kg", MassUnit.Kilogram), ("mg", MassUnit.Milligram), ("oz", MassUnit.Ounce), ("lb", MassUnit.Pound)];

    private static readonly Gen<Shown> Weights = Gen.Select(
        Gen.Long[-999_999_999, 999_999_999], Gen.Int[0, 6], Gen.Bool, Gen.Int[0, 4], Gen.Int[0, 4], Gen.Bool,
        (counts, decimals, comma, unit, padding, zeros) => new Shown(counts, decimals, comma, Units[unit], padding, zeros));

    [Fact]
    public void Header_comma_reads_back_what_was_written() => Check(new HeaderComma(), w => $"US,NT,{w.Sign}{w.Padded}{w.Digits} {w.Unit.Text}");

    [Fact]
    public void Sign_value_reads_back_what_was_written() => Check(new SignValue(), w => $"{w.Sign}{w.Padded}{w.Digits} {w.Unit.Text,-3}");

    [Fact]
    public void Request_reply_reads_back_what_was_written() =>
        Check(new RequestReply(), w => $"S D {(w.Counts < 0 ? "-" : "") + w.Digits,10} {w.Unit.Text}");

    [Fact]
    public void A_custom_pattern_reads_back_what_was_written() => Check(
        ScaleDialects.Create("custom", @"=(?<value>[-+]? *[\d.,]+)\((?<unit>\w+)\)", "=1.0(g)").Decoder!,
        w => $"={w.Sign}{w.Digits}({w.Unit.Text})");

    private static void Check(IScaleDecoder decoder, Func<Shown, string> write) => Weights.Sample(
        shown =>
        {
            var (fault, reading) = decoder.Read(write(shown));
            Assert.Equal(LineFault.None, fault);
            Assert.Equal(shown.Counts, Scaled(reading.Value, shown.Decimals));
            Assert.Equal(shown.Decimals, reading.Value.Scale);
            Assert.Equal(shown.Unit.Unit, reading.Unit);
        }, iter: 20_000);

    private static decimal Scaled(decimal value, int decimals)
    {
        for (var turn = 0; turn < decimals; turn++)
            value *= 10;
        return value;
    }

    /// <summary>So many counts of the last digit, and how the scale chooses to show them.</summary>
    private sealed record Shown(long Counts, int Decimals, bool Comma, (string Text, MassUnit Unit) Unit, int Padding, bool Zeros)
    {
        public char Sign => Counts < 0 ? '-' : '+';

        public string Padded => new(Zeros ? '0' : ' ', Padding);

        public string Digits
        {
            get
            {
                var digits = Math.Abs(Counts).ToString(System.Globalization.CultureInfo.InvariantCulture).PadLeft(Decimals + 1, '0');
                return Decimals == 0 ? digits : digits[..^Decimals] + (Comma ? ',' : '.') + digits[^Decimals..];
            }
        }
    }
}
