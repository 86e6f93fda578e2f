using System.Text;
using System.Threading.Channels;
using CaptureAgent.Agent.Links;
using CaptureAgent.Agent.Tests.Support;
using CaptureAgent.Agent.Trace;

namespace CaptureAgent.Agent.Tests.Links;

/// <summary>A running link and what came out of it.</summary>
internal sealed class LinkUnderTest : IAsyncDisposable
{
    // So that a fault shows as a failed test, never as a test run that hangs.
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(30);

    private readonly CancellationTokenSource stop = new();
    private readonly CancellationToken test;
    private readonly Channel<TraceRecord> output;
    private readonly Task running;

    public LinkUnderTest(Func<ListLogger, ILink> create, CancellationToken test, int capacity = 1000)
    {
        this.test = test;
        output = Channel.CreateBounded<TraceRecord>(capacity);
        running = create(Log).RunAsync(output.Writer, stop.Token);
    }

    public ListLogger Log { get; } = new();

    /// <summary>The records that nobody has taken yet.</summary>
    public int Waiting => output.Reader.Count;

    public Task<TraceRecord> NextAsync() => output.Reader.ReadAsync(test).AsTask().WaitAsync(Limit, test);

    public async Task<TraceRecord> UpAsync() => await NextAsync() is { Link: LinkChange.Up } up ? up : throw new InvalidOperationException("Not up.");

    public async Task<TraceRecord> DownAsync() => await NextAsync() is { Link: LinkChange.Down } down ? down : throw new InvalidOperationException("Not down.");

    /// <summary>Text, over as many records as it takes.</summary>
    public async Task<string> TextAsync(int length)
    {
        var text = new StringBuilder();
        while (text.Length < length)
        {
            var record = await NextAsync();
            text.Append(record.Link is null ? Encoding.Latin1.GetString(record.Bytes.Span) : $"<{record.Link}>");
        }

        return text.ToString();
    }

    public async Task StopAsync()
    {
        await stop.CancelAsync();
        await running.WaitAsync(Limit, test);
    }

    public async ValueTask DisposeAsync()
    {
        await stop.CancelAsync();
        await running.WaitAsync(Limit, CancellationToken.None).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        stop.Dispose();
    }
}
