using System.Text;
using CaptureAgent.Agent.Links;
using CaptureAgent.Agent.Trace;
using CsCheck;
using Xunit;

namespace CaptureAgent.Agent.Tests.Trace;

public sealed class TraceWriterTests
{
    private static readonly DateTimeOffset Start = new(2026, 3, 2, 5, 41, 10, TimeSpan.Zero);

    private static readonly Gen<TraceRecord> Records = Gen.Select(
        Gen.Long[0, 3_600_000_000], Gen.Bool.Select(first => first ? "scale" : "probe"), Gen.Byte.Array[0, 40], Gen.Int[0, 3], Gen.String.Null(),
        (microseconds, device, bytes, kind, detail) =>
        {
            var at = Start.AddMicroseconds(microseconds);
            return kind switch
            {
                0 => new TraceRecord(at, device, bytes, "2a1c"),
                1 => new TraceRecord(at, device, Link: LinkChange.Down, Detail: Whole(detail), Cause: LinkCause.Busy),
                2 => new TraceRecord(at, device, Link: LinkChange.Up),
                _ => new TraceRecord(at, device, bytes),
            };
        });

    [Fact]
    public void Whatever_is_written_is_read_again() => Records.Array[0, 20].Sample(records =>
    {
        var ordered = records.OrderBy(record => record.At).ToArray();
        var read = new TraceReader(new MemoryStream(Written(ordered)), "t", ["scale", "probe"]).Read().ToArray();

        return read.Length == ordered.Length && read.Zip(ordered).All(pair => Same(pair.First, pair.Second));
    });

    [Fact]
    public void A_line_looks_as_the_contract_has_it() => Assert.Equal(
        """
        {"at":"2026-03-02T05:41:10.125000Z","device":"scale","text":"ST,GS,+    8.2  g\r\n"}
        {"at":"2026-03-02T05:41:10.125001Z","device":"probe","source":"2a1c","hex":"00440100ff"}
        {"at":"2026-03-02T05:41:11.000000Z","device":"scale","link":"down","detail":"unplugged","cause":"lost"}

        """,
        Encoding.UTF8.GetString(Written(
        [
            new TraceRecord(Start.AddMilliseconds(125), "scale", "ST,GS,+    8.2  g\r\n"u8.ToArray()),
            new TraceRecord(Start.AddMilliseconds(125).AddMicroseconds(1), "probe", new byte[] { 0x00, 0x44, 0x01, 0x00, 0xFF }, "2a1c"),
            new TraceRecord(Start.AddSeconds(1), "scale", Link: LinkChange.Down, Detail: "unplugged", Cause: LinkCause.Lost),
        ])));

    [Fact]
    public void Nothing_is_written_before_the_flush()
    {
        using var stream = new MemoryStream();
        using var writer = new TraceWriter(stream);

        writer.Write(new TraceRecord(Start, "scale", "1"u8.ToArray()));
        Assert.Equal(0, stream.Length);

        writer.Flush();
        Assert.NotEqual(0, stream.Length);
    }

    [Fact]
    public void A_recording_is_never_overwritten()
    {
        var path = Path.GetTempFileName();
        try
        {
            TraceWriter.Create(path).Dispose();
            File.WriteAllText(path, "kept");

            Assert.Contains("never overwritten", Assert.Throws<TraceException>(() => TraceWriter.Create(path)).Message, StringComparison.Ordinal);
            Assert.Equal("kept", File.ReadAllText(path));
        }
        finally
        {
            File.Delete(path);
        }
    }

    private static byte[] Written(IEnumerable<TraceRecord> records)
    {
        using var stream = new MemoryStream();
        using var writer = new TraceWriter(stream);
        foreach (var record in records)
            writer.Write(record);
        writer.Flush();
        return stream.ToArray();
    }

    private static bool Same(TraceRecord a, TraceRecord b) =>
        a.Bytes.Span.SequenceEqual(b.Bytes.Span) && a with { Bytes = default } == b with { Bytes = default };

    // Half of a surrogate pair is no text and would come back as U+FFFD.
    private static string? Whole(string? text) => text is null ? null : Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(text));
}
