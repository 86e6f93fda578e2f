using CaptureAgent.Agent.Hosting;
using CaptureAgent.Agent.Trace;
using Microsoft.Extensions.Logging.Abstractions;
using Xunit;

namespace CaptureAgent.Agent.Tests.Hosting;

public sealed class TraceRecordingTests
{
    private static readonly TraceRecord Record = new(new DateTimeOffset(2026, 3, 2, 5, 0, 0, TimeSpan.Zero), "scale", "1"u8.ToArray());

    [Fact]
    public void A_full_disk_ends_the_recording_once_and_nothing_else()
    {
        using var recording = new TraceRecording(new TraceWriter(new FullDisk()), NullLogger.Instance);

        recording.Write(Record);
        Assert.Equal("no space left", recording.Flush());

        recording.Write(Record);
        Assert.Null(recording.Flush());
    }

    [Fact]
    public void Without_a_trace_nothing_is_written()
    {
        using var recording = new TraceRecording(null, NullLogger.Instance);

        recording.Write(Record);
        Assert.Null(recording.Flush());
    }

    private sealed class FullDisk : MemoryStream
    {
        public override void Write(ReadOnlySpan<byte> buffer) => throw new IOException("no space left");
    }
}
