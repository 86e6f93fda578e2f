using System.Threading.Channels;
using CaptureAgent.Agent.FrameFinding;
using CaptureAgent.Agent.Links;
using CaptureAgent.Agent.Tests.Support;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Protocol.FrameFinding;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace CaptureAgent.Agent.Tests.FrameFinding;

/// <summary>A keeper at the keyboard puts masses on a device that nobody has described; the device's layout is invented.</summary>
public sealed class LiveListeningTests
{
    [Fact(Timeout = 300_000)]
    public async Task What_the_keeper_tells_is_found_in_what_the_device_sends()
    {
        var stop = TestContext.Current.CancellationToken;
        var time = new FakeTimeProvider();
        var link = new WeighedLink(time);
        using var output = new StringWriter();
        var listening = new LiveListening(link, isProbe: false, new Keeper(link, "0", "heavy", "100", "500", ""), TextWriter.Synchronized(output), time);
        var running = listening.RunAsync(stop);
        await time.AdvanceUntilAsync(() => running.IsCompleted, stop);
        var times = await running;

        Assert.Equal([0m, 100m, 500m], times.Select(one => one.Known));
        var best = FrameFinder.Find(listening.Samples, times, isProbe: false)[0];
        Assert.Equal((1, 2, 0.1m), (best.Field.Offset, best.Field.Width, best.Factor));
        var said = output.ToString();
        Assert.Contains("Empty the pan", said, StringComparison.Ordinal);
        Assert.Contains("Put a known mass on", said, StringComparison.Ordinal);
        Assert.Contains("'heavy' is no number", said, StringComparison.Ordinal);
        Assert.Contains("connected", said, StringComparison.Ordinal);
        Assert.Contains("model M1", said, StringComparison.Ordinal);
        Assert.Contains("fff1  a5 [e8] [03]", said.Replace("][", "] [", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(false, "0 100", "An empty pan")]
    [InlineData(false, "50 100 500", "An empty pan")]
    [InlineData(false, "0 100 500", null)]
    [InlineData(true, "0", "Two known temperatures")]
    [InlineData(true, "0 40", null)]
    public void What_is_missing_is_said(bool isProbe, string known, string? missing)
    {
        var said = KnownMarks.Missing([.. known.Split(' ').Select((one, i) => new KnownTime(decimal.Parse(one, System.Globalization.CultureInfo.InvariantCulture), i, i + 1))], isProbe);
        if (missing is null)
            Assert.Null(said);
        else
            Assert.Contains(missing, said, StringComparison.Ordinal);
    }

    /// <summary>Puts the mass on before each answer.</summary>
    private sealed class Keeper(WeighedLink link, params string[] answers) : TextReader
    {
        private int next;

        public override string? ReadLine()
        {
            var answer = next < answers.Length ? answers[next++] : null;
            if (int.TryParse(answer, out var grams))
                link.Tenths = grams * 10;
            return answer;
        }
    }

    /// <summary>A5 and tenths of a gram, low byte first, twice a second.</summary>
    private sealed class WeighedLink(FakeTimeProvider time) : ILink
    {
        public int Tenths { get; set; }

        public string Device => "scale";

        public async Task RunAsync(ChannelWriter<TraceRecord> output, CancellationToken stop)
        {
            await output.WriteAsync(new(time.GetUtcNow(), Device, Link: LinkChange.Up), CancellationToken.None);
            await output.WriteAsync(new(time.GetUtcNow(), Device, "M1"u8.ToArray(), "2a24"), CancellationToken.None);
            using var timer = new PeriodicTimer(TimeSpan.FromSeconds(0.5), time);
            try
            {
                while (await timer.WaitForNextTickAsync(stop))
                {
                    var tenths = Tenths;
                    await output.WriteAsync(new(time.GetUtcNow(), Device, new byte[] { 0xA5, (byte)(tenths & 0xFF), (byte)(tenths >> 8) }, "fff1"), CancellationToken.None);
                }
            }
            catch (OperationCanceledException)
            {
            }
        }
    }
}
