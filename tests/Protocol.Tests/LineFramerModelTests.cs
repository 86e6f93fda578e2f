using CsCheck;

namespace CaptureAgent.Protocol.Tests;

/// <summary>The framer against a model that is slow and obvious, on any stream and any cut of it.</summary>
public sealed class LineFramerModelTests
{
    private const int Limit = 6;

    // Endings and NULs are frequent, so that short streams already hold many lines.
    private static readonly Gen<byte> AnyByte = Gen.Frequency(
        (4, Gen.OneOf<byte>(0x0D, 0x0A, 0x03, 0x09, 0x00, 0x02)), (6, Gen.OneOf((byte)'a', (byte)'7')), (1, Gen.Byte));

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Any_stream_in_any_pieces_gives_the_lines_of_the_model(bool tabEnds) =>
        Gen.Select(AnyByte.Array[0, 80], Gen.Int[0, 9].Array[1, 6]).Sample((stream, lengths) =>
        {
            LineFramer framer = new(tabEnds, Limit);
            var lines = Wire.Lines(framer, Wire.Cut(stream, lengths));
            var (expected, overflows) = Model(stream, tabEnds);
            Assert.Equal(expected, lines);
            Assert.Equal(overflows, framer.Overflows);
        }, iter: 20_000);

    private static (List<string> Lines, int Overflows) Model(byte[] stream, bool tabEnds)
    {
        List<string> lines = [];
        var overflows = 0;
        var current = "";
        foreach (var b in stream)
        {
            var ends = b is 0x0D or 0x0A or 0x03 || (tabEnds && b == 0x09);
            if (ends)
            {
                if (current.Length is > 0 and <= Limit)
                    lines.Add(current);
                current = "";
            }
            else if (b != 0x00 && !(b == 0x02 && current.Length == 0))
            {
                current += (char)b;
                if (current.Length == Limit + 1)
                    overflows++;
            }
        }

        return (lines, overflows);
    }
}
