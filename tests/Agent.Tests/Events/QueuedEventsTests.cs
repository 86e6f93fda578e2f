using System.Text;
using CaptureAgent.Agent.Events;
using Xunit;

namespace CaptureAgent.Agent.Tests.Events;

public sealed class QueuedEventsTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    private static readonly PlacedEvent Placed = new(new DateTimeOffset(2026, 3, 2, 5, 0, 0, TimeSpan.Zero), "scale", null);

    [Fact]
    public async Task Lines_are_written_in_order_and_all_of_them_before_the_end()
    {
        using var stream = new MemoryStream();
        var events = new QueuedEvents(stream);

        events.WriteReady();
        for (var i = 0; i < 100; i++)
            events.Write(Placed with { Device = $"d{i}" });
        await events.CloseAsync(Patience, TimeProvider.System);

        var lines = Encoding.UTF8.GetString(stream.ToArray()).Split('\n');
        Assert.Equal("""{"event":"ready"}""", lines[0]);
        Assert.Equal(Enumerable.Range(0, 100), lines[1..^1].Select(line => int.Parse(line.Split("\"d")[^1].Split('"')[0], System.Globalization.CultureInfo.InvariantCulture)));
        Assert.Equal(0, events.Lost);
    }

    [Fact]
    public async Task A_broken_output_is_kept_as_a_fault_and_ends_nothing()
    {
        using var stream = new BrokenStream();
        var events = new QueuedEvents(stream);

        events.Write(Placed);
        events.Write(Placed);
        await events.CloseAsync(Patience, TimeProvider.System);

        Assert.Equal("closed pipe", events.Fault!.Message);
        Assert.Equal(1, stream.Tries);
    }

    [Fact]
    public async Task A_listener_that_stopped_reading_does_not_hold_up_the_writer()
    {
        using var stream = new StuckStream();
        var events = new QueuedEvents(stream);

        for (var i = 0; i < 10_010; i++)
            events.Write(Placed);
        await events.CloseAsync(TimeSpan.FromMilliseconds(1), TimeProvider.System);

        Assert.InRange(events.Lost, 10_008, 10_010);
        stream.Release.Set();
    }

    private sealed class BrokenStream : MemoryStream
    {
        public int Tries { get; private set; }

        public override void Write(ReadOnlySpan<byte> buffer)
        {
            Tries++;
            throw new IOException("closed pipe");
        }
    }

    private sealed class StuckStream : MemoryStream
    {
        public ManualResetEventSlim Release { get; } = new();

        public override void Write(ReadOnlySpan<byte> buffer) => Release.Wait();
    }
}
