using System.Text;
using CaptureAgent.Agent.Trace;
using Xunit;

namespace CaptureAgent.Agent.Tests.Trace;

public sealed class TraceReaderTests
{
    private const string First = """{"at":"2026-03-02T05:41:10.125Z","device":"scale","text":"ST,GS,+    8.2  g\r\n"}""";
    private const string Second = """{"at":"2026-03-02T05:41:11Z","device":"scanner","text":"AM-0147\r"}""";

    [Fact]
    public void Each_kind_of_record_is_read()
    {
        var records = Read(First + "\n" + Second + """

            {"at":"2026-03-02T05:41:11.1234567Z","device":"probe","source":"2a1c","hex":"00440100FF","later":{"a":[1]}}
            {"at":"2026-03-02T05:41:12Z","device":"scale","link":"down","detail":"unplugged","cause":"lost"}
            {"at":"2026-03-02T05:41:12Z","device":"scale","link":"up"}

            """);

        Assert.Equal(5, records.Count);
        Assert.Equal("ST,GS,+    8.2  g\r\n"u8, records[0].Bytes.Span);
        Assert.Equal(new DateTimeOffset(2026, 3, 2, 5, 41, 10, 125, TimeSpan.Zero), records[0].At);
        Assert.Equal("scanner", records[1].Device);
        Assert.Equal([0x00, 0x44, 0x01, 0x00, 0xFF], records[2].Bytes.ToArray());
        Assert.Equal("2a1c", records[2].Source);
        Assert.Equal((LinkChange.Down, "unplugged", "lost"), (records[3].Link!.Value, records[3].Detail, records[3].Cause));
        Assert.Equal(LinkChange.Up, records[4].Link);
        Assert.True(records[4].Bytes.IsEmpty);
    }

    [Fact]
    public void Text_is_bytes_as_Latin_1()
    {
        var record = Assert.Single(Read("""{"at":"2026-03-02T05:41:11Z","device":"probe","text":"39.8 °C\u0000\u00ff"}"""));

        Assert.Equal([.. "39.8 "u8, 0xB0, (byte)'C', 0x00, 0xFF], record.Bytes.ToArray());
    }

    [Fact]
    public void A_cut_last_line_is_passed_over_wherever_it_is_cut()
    {
        for (var length = 0; length < Second.Length; length++)
        {
            Assert.Single(Read(First + "\n" + Second[..length]));
            Assert.Single(Read(First + "\n" + Second[..length] + "\n"));
        }

        Assert.Equal(2, Read(First + "\n" + Second).Count);
    }

    [Fact]
    public void Zeros_at_the_end_of_a_file_are_a_cut_too()
    {
        Assert.Single(Read(First + "\n" + Second[..20] + new string('\0', 100_000)));
        Assert.Single(Read(First + "\n" + new string('\0', 100)));
    }

    [Fact]
    public void A_cut_line_in_the_middle_is_named()
    {
        var fault = Assert.Throws<TraceException>(() => Read(First[..30] + "\n" + Second));

        Assert.Equal(1, fault.Line);
        Assert.Contains("ends too early", fault.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("garbage", "not a JSON object")]
    [InlineData("[]", "not a JSON object")]
    [InlineData("""{"device":"scale","text":"a"}""", "'at' is missing")]
    [InlineData("""{"at":"2026-03-02T05:41:11Z","text":"a"}""", "'device' is missing")]
    [InlineData("""{"at":"2026-03-02T05:41:11Z","device":"scales","text":"a"}""", "no device 'scales'; it has scale, scanner, probe")]
    [InlineData("""{"at":"2026-03-02T05:41:11","device":"scale","text":"a"}""", "UTC")]
    [InlineData("""{"at":"2026-03-02T05:41:11+02:00","device":"scale","text":"a"}""", "UTC")]
    [InlineData("""{"at":17,"device":"scale","text":"a"}""", "UTC")]
    [InlineData("""{"at":"2026-03-02T05:41:09Z","device":"scale","text":"a"}""", "goes backwards")]
    [InlineData("""{"at":"2026-03-02T05:41:11Z","device":"scale"}""", "exactly one")]
    [InlineData("""{"at":"2026-03-02T05:41:11Z","device":"scale","text":"a","hex":"00"}""", "exactly one")]
    [InlineData("""{"at":"2026-03-02T05:41:11Z","device":"scale","text":"a","link":"up"}""", "exactly one")]
    [InlineData("""{"at":"2026-03-02T05:41:11Z","device":"scale","hex":"0g"}""", "hexadecimal")]
    [InlineData("""{"at":"2026-03-02T05:41:11Z","device":"scale","hex":"000"}""", "hexadecimal")]
    [InlineData("""{"at":"2026-03-02T05:41:11Z","device":"scale","text":"a","source":"hid"}""", "'source'")]
    [InlineData("""{"at":"2026-03-02T05:41:11Z","device":"scale","text":"€"}""", "above U+00FF")]
    [InlineData("""{"at":"2026-03-02T05:41:11Z","device":"scale","text":1}""", "not a JSON object as a trace")]
    [InlineData("""{"at":"2026-03-02T05:41:11Z","device":"scale","link":"gone"}""", "not \"gone\"")]
    [InlineData("""{"at":"2026-03-02T05:41:11Z","device":"scale","text":"a"} {}""", "more than one")]
    public void A_broken_line_is_named_with_its_number(string broken, string problem)
    {
        foreach (var ending in (string[])["", "\n", "\n" + Second + "\n"])
        {
            var fault = Assert.Throws<TraceException>(() => Read(First + "\n\n" + broken + ending));

            Assert.Equal(3, fault.Line);
            Assert.Contains("t.ndjson, line 3: ", fault.Message, StringComparison.Ordinal);
            Assert.Contains(problem, fault.Message, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_record_longer_than_the_buffer_is_read()
    {
        var text = new string('x', 300_000);
        var records = Read(First + "\n" + $$"""{"at":"2026-03-02T05:41:11Z","device":"scale","text":"{{text}}"}""" + "\n" + Second);

        Assert.Equal([19, 300_000, 8], records.Select(record => record.Bytes.Length));
    }

    [Fact]
    public void A_stream_that_comes_in_single_bytes_gives_the_same_records()
    {
        using var stream = new DrippingStream(Encoding.UTF8.GetBytes(First + "\r\n" + Second + "\r\n"));

        Assert.Equal(2, new TraceReader(stream, "t.ndjson", ["scale", "scanner"]).Read().Count());
    }

    [Fact]
    public void A_missing_file_is_said_so() =>
        Assert.Contains("no such file", Assert.Throws<TraceException>(() => TraceReader.Open("/nowhere/t.ndjson")).Message, StringComparison.Ordinal);

    private static List<TraceRecord> Read(string trace) =>
        [.. new TraceReader(new MemoryStream(Encoding.UTF8.GetBytes(trace)), "t.ndjson", ["scale", "scanner", "probe"]).Read()];

    private sealed class DrippingStream(byte[] bytes) : MemoryStream(bytes)
    {
        public override int Read(byte[] buffer, int offset, int count) => base.Read(buffer, offset, Math.Min(count, 1));
    }
}
