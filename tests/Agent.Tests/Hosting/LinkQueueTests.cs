using System.Text;
using System.Threading.Channels;
using CaptureAgent.Agent.Hosting;
using CaptureAgent.Agent.Trace;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Hosting;

public sealed class LinkQueueTests
{
    private readonly FakeTimeProvider time = new(new DateTimeOffset(2026, 3, 2, 5, 0, 0, TimeSpan.Zero));
    private readonly Channel<TraceRecord> shared = Channel.CreateBounded<TraceRecord>(3);
    private readonly LinkQueue queue;

    public LinkQueueTests() => queue = new LinkQueue("scale", shared.Writer, time);

    [Fact]
    public async Task A_link_is_never_made_to_wait()
    {
        for (var i = 0; i < 10; i++)
            await queue.WriteAsync(Bytes("1\r\n"), TestContext.Current.CancellationToken);

        Assert.Equal(7, queue.Lost);
        Assert.True(await queue.WaitToWriteAsync(TestContext.Current.CancellationToken));
    }

    [Fact]
    public void The_first_record_says_that_the_link_has_tried()
    {
        Assert.False(queue.Spoken.IsCompleted);

        queue.TryWrite(new TraceRecord(time.GetUtcNow(), "scale", Link: LinkChange.Down, Detail: "not there"));

        Assert.True(queue.Spoken.IsCompleted);
    }

    [Fact]
    public void After_a_loss_the_core_hears_of_a_lost_link_and_then_of_whole_lines_only()
    {
        Write(Up(), Bytes("a\r\n"), Bytes("b\r\n"), Bytes("c\r\n"), Bytes("184."));
        Assert.Equal(["up", "a\r\n", "b\r\n"], Drain());

        Write(Bytes("6 g\r\n185.1 g\r\n"));

        Assert.Equal(["down: 2 pieces", "up", "\n185.1 g\r\n"], Drain());
        Assert.Equal(2, queue.Lost);
    }

    [Fact]
    public void Bytes_without_the_end_of_the_torn_line_are_dropped()
    {
        Write(Up(), Bytes("a\r\n"), Bytes("b\r\n"), Bytes("c"));
        Drain();

        Write(Bytes("AM-01"), Bytes("47\rAM-0148\r"));

        Assert.Equal(["down: 1 pieces", "up", "AM-0148\r"], Drain());
    }

    [Fact]
    public void A_link_that_went_down_in_the_meantime_is_not_called_up()
    {
        Write(Up(), Bytes("a\r\n"), Bytes("b\r\n"), new TraceRecord(time.GetUtcNow(), "scale", Link: LinkChange.Down));
        Drain();

        Write(new TraceRecord(time.GetUtcNow(), "scale", Link: LinkChange.Down, Detail: "still not there"));

        Assert.Equal(["down: 1 pieces", "down"], Drain().Select(line => line.Replace(": still not there", "", StringComparison.Ordinal)));
    }

    [Fact]
    public void A_new_connection_ends_the_search_for_a_line_end()
    {
        Write(Up(), Bytes("a\r\n"), Bytes("b\r\n"), Bytes("c"));
        Drain();

        Write(Up(), Bytes("1.0 g\r\n"));
        var first = Drain();
        Write(Bytes("2.0 g\r\n"));

        Assert.Equal(["down: 1 pieces", "up", "up"], first);
        Assert.Equal(["down: 1 pieces", "up"], Drain().Take(2));
    }

    private TraceRecord Up() => new(time.GetUtcNow(), "scale", Link: LinkChange.Up);

    private TraceRecord Bytes(string text) => new(time.GetUtcNow(), "scale", Encoding.Latin1.GetBytes(text));

    private void Write(params TraceRecord[] records)
    {
        foreach (var record in records)
            Assert.True(queue.TryWrite(record));
    }

    private List<string> Drain()
    {
        var lines = new List<string>();
        while (shared.Reader.TryRead(out var record))
        {
            lines.Add(record.Link switch
            {
                LinkChange.Up => "up",
                LinkChange.Down => record.Detail is { } detail ? $"down: {(detail.Contains("pieces", StringComparison.Ordinal) ? Pieces(detail) : detail)}" : "down",
                _ => Encoding.Latin1.GetString(record.Bytes.Span),
            });
        }

        return lines;
    }

    private static string Pieces(string detail) => $"{detail.Split(": ")[1].Split(' ')[0]} pieces";
}
