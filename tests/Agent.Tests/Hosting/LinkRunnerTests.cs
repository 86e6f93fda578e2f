using System.Threading.Channels;
using CaptureAgent.Agent.Hosting;
using CaptureAgent.Agent.Links;
using CaptureAgent.Agent.Trace;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Hosting;

public sealed class LinkRunnerTests
{
    [Fact]
    public async Task A_fault_of_the_program_in_a_link_is_told_and_the_link_starts_anew()
    {
        var time = new FakeTimeProvider();
        var shared = Channel.CreateUnbounded<TraceRecord>();
        var link = new FaultyLink();
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        var running = new LinkRunner(link, new LinkQueue("scale", shared.Writer, time), time, NullLogger.Instance).RunAsync(stop.Token);

        var told = await shared.Reader.ReadAsync(TestContext.Current.CancellationToken);
        Assert.Equal(LinkChange.Down, told.Link);
        Assert.Contains("no such luck", told.Detail!, StringComparison.Ordinal);

        time.Advance(TimeSpan.FromSeconds(30));
        await link.StartedAgain.Task.WaitAsync(TestContext.Current.CancellationToken);
        await stop.CancelAsync();
        await running;
    }

    private sealed class FaultyLink : ILink
    {
        private int starts;

        public TaskCompletionSource StartedAgain { get; } = new(TaskCreationOptions.RunContinuationsAsynchronously);

        public string Device => "scale";

        public Task RunAsync(ChannelWriter<TraceRecord> output, CancellationToken stop)
        {
            if (++starts == 1)
                throw new InvalidOperationException("no such luck");
            StartedAgain.SetResult();
            return Task.Delay(Timeout.InfiniteTimeSpan, TimeProvider.System, stop);
        }
    }
}
