using System.Text;
using System.Threading.Channels;
using CaptureAgent.Agent.Checks;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Links;
using CaptureAgent.Agent.Trace;
using Xunit;

namespace CaptureAgent.Agent.Tests.Checks;

public sealed class DeviceCheckTests
{
    [Theory]
    [InlineData("scale", "header-comma", "ST,GS,+  186.4  g\r\n", true, "/dev/x is open and shows 186.4 gram")]
    [InlineData("scale", "header-comma", "garbage\r\nST,GS,+  186.4  g\r\n", true, "shows 186.4 gram")]
    [InlineData("probe", "text", "39.8 C\r\n", true, "shows 39.8 °C")]
    [InlineData("scanner", "line", "AM-0147\t", true, "read the code AM-0147")]
    [InlineData("scanner", "line", "", true, "scan a code")]
    [InlineData("scale", "header-comma", "S S      28.40 g\r\n", false, "request-reply reads it")]
    [InlineData("scale", "header-comma", "\u00fe\u0001zz\r\n", false, "'..zz' is not of the dialect header-comma. Check dialect, baud")]
    [InlineData("scale", "header-comma", "abc", false, "no line ends")]
    [InlineData("scale", "header-comma", "", false, "nothing came within")]
    public async Task What_a_device_sends_is_judged(string role, string dialect, string sent, bool isGood, string text)
    {
        var result = await Look(role, dialect, [new TraceRecord(default, "x", Link: LinkChange.Up), new TraceRecord(default, "x", Encoding.Latin1.GetBytes(sent))]);

        Assert.Equal(isGood, result.IsGood);
        Assert.Contains(text, result.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_device_that_cannot_be_opened_says_why()
    {
        var result = await Look("scale", "header-comma", [new TraceRecord(default, "x", Link: LinkChange.Down, Detail: "Permission denied: /dev/x. Join dialout.")]);

        Assert.Equal((false, "Permission denied: /dev/x. Join dialout."), result);
    }

    [Fact]
    public async Task A_device_that_hangs_while_it_is_opened_is_named() =>
        Assert.Contains("did not open", (await Look("scale", "header-comma", [])).Text, StringComparison.Ordinal);

    private static Task<(bool IsGood, string Text)> Look(string role, string dialect, TraceRecord[] records)
    {
        var device = new DeviceOptions { Id = "x", Role = role, Dialect = dialect, Connection = new ConnectionOptions { Path = "/dev/x" } };
        return DeviceCheck.LookAsync(device, new ScriptedLink(records), TimeSpan.FromSeconds(0.2), TimeProvider.System, TestContext.Current.CancellationToken);
    }

    private sealed class ScriptedLink(TraceRecord[] records) : ILink
    {
        public string Device => "x";

        public async Task RunAsync(ChannelWriter<TraceRecord> output, CancellationToken stop)
        {
            foreach (var record in records)
                await output.WriteAsync(record, CancellationToken.None);
            await Task.Delay(Timeout.InfiniteTimeSpan, TimeProvider.System, stop).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
    }
}
