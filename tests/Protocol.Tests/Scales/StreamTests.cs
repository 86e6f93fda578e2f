using CaptureAgent.Protocol.Scales;
using CsCheck;

namespace CaptureAgent.Protocol.Tests.Scales;

/// <summary>How a stream was cut on its way must not matter, and garbage must not cost the next good line.</summary>
public sealed class StreamTests
{
    private static readonly string[] Endings = ["\r", "\n", "\r\n", "\n\r", "\x03", "\r\n\r\n"];

    private static readonly Dictionary<string, string[]> Lines = new()
    {
        ["header-comma"] = ["ST,GS,+0028.40  g", "US,NT,-0000.5 g", "OL,GS,+9999999  g", "ST,NT,+  28,4 g", "UL", "ST,GS,+1,028.40 g"],
        ["sign-value"] = ["+    28.40 g  ", "+    28.40    ", "- --------    ", "G     -   186.40 g  ", "12.3.4 g", "       H     "],
        ["request-reply"] = ["S S      28.40 g", "S D      28.37 g", "S I", "S +", "ES", "T S      28.40 g"],
        ["custom"] = ["=0012.34(kg)", "=0012.35(g)", "=12..3(g)", "=12(pcs)"],
    };

    private static readonly string[] Noise = ["\xB2\xB1.\xB4", "noise", new string('x', 300), "\0\0", "28.40 gST,GS", "?"];

    [Theory]
    [InlineData("header-comma")]
    [InlineData("sign-value")]
    [InlineData("request-reply")]
    [InlineData("custom")]
    public void Any_split_or_merge_gives_the_same_readings(string dialect)
    {
        var decoder = Decoder(dialect);
        var line = Gen.Frequency((3, Gen.OneOf(Lines[dialect])), (1, Gen.OneOf(Noise)));
        var stream = Gen.Select(line, Gen.OneOf(Endings)).Array[0, 12];
        Gen.Select(stream, Gen.Int[0, 40].Array[1, 8]).Sample((parts, lengths) =>
        {
            // One by one and without a framer: this is what must come, however the bytes came.
            var expected = parts.Select(part => part.Item1.Replace("\0", "", StringComparison.Ordinal))
                .Where(text => text.Length is > 0 and <= LineFramer.DefaultMaxLength)
                .Select(text => decoder.Read(text)).ToList();

            var bytes = Wire.Bytes(string.Concat(parts.Select(part => part.Item1 + part.Item2)));
            List<(LineFault, ScaleReading)> read = [];
            LineFramer framer = new();
            foreach (var piece in Wire.Cut(bytes, lengths))
            {
                ReadOnlySpan<byte> rest = piece;
                while (framer.TryTakeLine(ref rest, out var taken))
                {
                    var fault = decoder.Decode(taken, out var reading);
                    read.Add((fault, reading));
                }
            }

            Assert.Equal(expected, read);
            Assert.Equal(parts.Count(part => part.Item1.Length > LineFramer.DefaultMaxLength), framer.Overflows);
        }, iter: 5_000);
    }

    private static IScaleDecoder Decoder(string dialect) =>
        ScaleDialects.Create(dialect, @"=(?<value>[\d.]+)\((?<unit>\w+)\)", "=1.0(g)").Decoder!;
}
