using CaptureAgent.Protocol.Codes;
using CaptureAgent.Protocol.Probes;
using CaptureAgent.Protocol.Scales;
using CsCheck;

namespace CaptureAgent.Protocol.Tests;

/// <summary>Anything may come over a wire or stand in a configuration: no exception, no hang, and no value with a fault.</summary>
public sealed class FuzzTests
{
    private const int Turns = 50_000;

    private static readonly string[] Seeds =
    [
        "ST,GS,+0028.40  g", "OL,GS,+9999999E+19", "+    28.40 g  ", "G     - --------  ", "S S      28.40 g", "S -", "Z A",
        "39.8 \xC2\xB0" + "C", "98.6\xB0" + "F", "AM-0147", "!FED", "=0012.34(kg)",
    ];

    /// <summary>Either plain noise or a good line with a few bytes changed, dropped or doubled.</summary>
    private static readonly Gen<byte[]> Junk = Gen.OneOf(
        Gen.Byte.Array[0, 200],
        Gen.OneOf((byte)' ', (byte)'+', (byte)'-', (byte)'.', (byte)',', (byte)'0', (byte)'9', (byte)'g', (byte)'S').Array[0, 40],
        Gen.Select(Gen.OneOf(Seeds), Gen.Select(Gen.Int[0, 40], Gen.Byte, Gen.Int[0, 2]).Array[0, 4], Changed));

    private static readonly Gen<string> PatternJunk =
        Gen.OneOf("(", ")", "?", "<", ">", "value", "unit", "(?<value>", "(?<unit>", "[", "]", "^", "-", "\\", "{2,}", "{", "}",
            "*", "+", "|", "1", "k", "(?=", "(?<=", "(?>", "(?(", "(?#", "\\1", "\\G", "\\d", "'", "$", "(?x)", "#", "\n").Array[0, 12]
            .Select(parts => string.Concat(parts));

    [Theory]
    [InlineData("header-comma")]
    [InlineData("sign-value")]
    [InlineData("request-reply")]
    [InlineData("custom")]
    public void A_scale_decoder_takes_anything(string dialect)
    {
        var decoder = ScaleDialects.Create(dialect, @".*?(?<sign>[+-])?(?<value>[ \d.,]+)\(?(?<unit>[a-z]*)(?<stable>.*)", "1 g").Decoder!;
        Junk.Sample(line =>
        {
            var fault = decoder.Decode(line, out var reading);
            Assert.True(Enum.IsDefined(fault));
            if (fault != LineFault.None)
                Assert.Equal(default, reading);
            else if (reading.Range != LoadRange.Within)
                Assert.Equal((0m, MassUnit.None), (reading.Value, reading.Unit));
            else if (reading.Unit != MassUnit.None)
                _ = MassUnits.ToGrams(reading.Value, reading.Unit) + MassUnits.StepGrams(reading.Value, reading.Unit);
            if (line.Any(b => b >= 0x80))
                Assert.Equal(LineFault.BadShape, fault);
        }, iter: Turns);
    }

    [Fact]
    public void The_text_probe_takes_anything()
    {
        TextProbe decoder = new();
        Junk.Sample(line =>
        {
            var fault = decoder.Decode(line, out var reading);
            if (fault != LineFault.None)
                Assert.Equal(default, reading);
            else
                Assert.True(reading.ResolutionCelsius > 0);
        }, iter: Turns);
    }

    [Fact]
    public void The_framer_takes_anything_and_never_gives_an_ending()
    {
        LineFramer framer = new(tabEnds: true, maxLength: 16);
        Junk.Sample(piece =>
        {
            lock (framer)
            {
                ReadOnlySpan<byte> rest = piece;
                while (framer.TryTakeLine(ref rest, out var line))
                {
                    Assert.InRange(line.Length, 1, 16);
                    Assert.Equal(-1, line.IndexOfAny("\0\x03\t\n\r"u8));
                }

                Assert.True(rest.IsEmpty);
            }
        }, iter: Turns);
    }

    [Theory]
    [InlineData(CheckScheme.None)]
    [InlineData(CheckScheme.Mod37Comma2)]
    [InlineData(CheckScheme.Mod97Comma10)]
    [InlineData(CheckScheme.Mod11Comma2)]
    public void Code_rules_take_anything(CheckScheme scheme)
    {
        Assert.True(CodeRules.TryCompile(".*", scheme, out var rules, out _));
        Junk.Sample(line =>
        {
            var code = CodeRules.Text(line);
            Assert.True(Enum.IsDefined(rules.Classify(code)));
            _ = Iso7064.Compute(scheme, code);
        }, iter: Turns);
    }

    [Fact]
    public void A_pattern_that_a_user_wrote_gives_a_decoder_or_words_but_never_an_exception() => PatternJunk.Sample(pattern =>
    {
        var dialect = ScaleDialects.Create("custom", pattern, "1g");
        Assert.Equal(dialect.Decoder is null, dialect.Faults.Count > 0);
        Assert.All(dialect.Faults, fault => Assert.NotEmpty(fault));
        Assert.NotEqual(CodeRules.TryCompile(pattern, CheckScheme.None, out _, out var said), said is not null);
    }, iter: 2_000);

    [Theory]
    [InlineData("(", "a", ")")]
    [InlineData("(?:", "a", ")*")]
    [InlineData("(a|", "a", ")+")]
    public void A_deeply_nested_pattern_is_taken_or_refused(string open, string inside, string close)
    {
        var depth = 1000 / (open.Length + close.Length) - 1;
        var pattern = string.Concat(Enumerable.Repeat(open, depth)) + inside + string.Concat(Enumerable.Repeat(close, depth));
        if (CodeRules.TryCompile(pattern, CheckScheme.None, out var rules, out var fault))
            Assert.Equal(CodeKind.Unreadable, rules.Classify(new string('a', 200) + "b"));
        else
            Assert.NotEmpty(fault);
    }

    private static byte[] Changed(string seed, (int At, byte Value, int How)[] changes)
    {
        var line = Wire.Bytes(seed).ToList();
        foreach (var (at, value, how) in changes)
        {
            var index = at % (line.Count + 1);
            if (how == 0 || index == line.Count)
                line.Insert(index, value);
            else if (how == 1)
                line[index] = value;
            else
                line.RemoveAt(index);
        }

        return [.. line];
    }
}
