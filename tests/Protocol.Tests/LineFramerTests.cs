namespace CaptureAgent.Protocol.Tests;

public sealed class LineFramerTests
{
    [Theory]
    [InlineData("a\rb\r")]
    [InlineData("a\nb\n")]
    [InlineData("a\r\nb\r\n")]
    [InlineData("a\n\rb\n\r")]
    [InlineData("a\x03" + "b\x03")]
    [InlineData("\x02" + "a\x03\x02" + "b\x03")]
    [InlineData("\r\n\r\na\r\r\r\nb\n\n")]
    [InlineData("\0a\0\r\0\nb\0\0\r")]
    public void Every_ending_gives_the_same_two_lines(string stream)
    {
        Assert.Equal(["a", "b"], Wire.Lines(new(), Wire.Bytes(stream)));
        Assert.Equal(["a", "b"], Wire.Lines(new(), Wire.Cut(Wire.Bytes(stream), [1])));
    }

    [Fact]
    public void Tab_ends_a_line_only_where_it_is_asked_for()
    {
        Assert.Equal(["AM-0147", "AM-0148"], Wire.Lines(new(tabEnds: true), Wire.Bytes("AM-0147\tAM-0148\r\n")));
        Assert.Equal(["AM-0147\tAM-0148"], Wire.Lines(new(), Wire.Bytes("AM-0147\tAM-0148\r\n")));
    }

    [Fact]
    public void A_line_split_over_pushes_comes_whole()
    {
        LineFramer framer = new();
        Assert.Empty(Wire.Lines(framer, Wire.Bytes("ST,GS,+00")));
        Assert.Equal(["ST,GS,+0028.40  g"], Wire.Lines(framer, Wire.Bytes("28.40  g\r\n")));
    }

    [Fact]
    public void Lines_merged_in_one_push_come_one_by_one() => Assert.Equal(
        ["ST,GS,+0028.40  g", "ST,GS,+0028.41  g"],
        Wire.Lines(new(), Wire.Bytes("ST,GS,+0028.40  g\r\nST,GS,+0028.41  g\r\n")));

    [Fact]
    public void NUL_bytes_inside_a_line_are_dropped() =>
        Assert.Equal(["S S 28.40 g"], Wire.Lines(new(), Wire.Bytes("S S\0 28\0.40 g\r\n")));

    [Fact]
    public void A_whole_line_is_given_out_where_it_lies()
    {
        var stream = Wire.Bytes("ab\r\n");
        ReadOnlySpan<byte> rest = stream;
        Assert.True(new LineFramer().TryTakeLine(ref rest, out var line));
        Assert.True(line == stream.AsSpan(0, 2));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(1000)]
    public void A_line_over_the_limit_is_given_up_and_the_next_one_comes(int pieceLength)
    {
        LineFramer framer = new(maxLength: 8);
        var stream = Wire.Bytes("12345678\r\n123456789\r\nnext\r\nfar too long a line\rlast\n");
        Assert.Equal(["12345678", "next", "last"], Wire.Lines(framer, Wire.Cut(stream, [pieceLength])));
        Assert.Equal(2, framer.Overflows);
    }

    [Fact]
    public void A_stream_without_endings_is_one_overflow_and_no_line()
    {
        LineFramer framer = new();
        for (var turn = 0; turn < 100; turn++)
            Assert.Empty(Wire.Lines(framer, Wire.Bytes("never ends ")));
        Assert.Equal(1, framer.Overflows);
        Assert.Equal(["good"], Wire.Lines(framer, Wire.Bytes("\rgood\r")));
    }

    [Fact]
    public void Reset_forgets_half_a_line()
    {
        LineFramer framer = new();
        Assert.Empty(Wire.Lines(framer, Wire.Bytes("ST,GS,+00")));
        framer.Reset();
        Assert.Equal(["S S 1 g"], Wire.Lines(framer, Wire.Bytes("S S 1 g\r\n")));
    }

    [Fact]
    public void Reset_forgets_a_line_that_was_given_up()
    {
        LineFramer framer = new(maxLength: 4);
        Assert.Empty(Wire.Lines(framer, Wire.Bytes("12345")));
        framer.Reset();
        Assert.Equal(["6"], Wire.Lines(framer, Wire.Bytes("6\r")));
        Assert.Equal(1, framer.Overflows);
    }

    [Fact]
    public void A_limit_of_nothing_is_refused() => Assert.Throws<ArgumentOutOfRangeException>(() => new LineFramer(maxLength: 0));
}
