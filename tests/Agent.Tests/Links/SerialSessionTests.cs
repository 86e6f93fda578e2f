using System.Text;
using System.Threading.Channels;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Links.Serial;
using CaptureAgent.Agent.Tests.Support;
using CaptureAgent.Agent.Trace;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Links;

public sealed class SerialSessionTests : IDisposable
{
    private readonly FakeTimeProvider time = new(new DateTimeOffset(2026, 3, 2, 5, 0, 0, TimeSpan.Zero));
    private readonly Channel<TraceRecord> output = Channel.CreateUnbounded<TraceRecord>();
    private readonly PseudoTerminal terminal = new();
    private readonly RecordingPortControl control = new();
    private readonly CancellationTokenSource stop = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);

    // So that a fault shows as a failed test, never as a test run that hangs.
    public SerialSessionTests() => stop.CancelAfter(TimeSpan.FromSeconds(30));

    [Fact]
    public async Task A_line_long_after_a_watchdogs_opening_is_whole()
    {
        await using var session = await Sessions(new()).OpenAsync(afterSilence: true, stop.Token);
        var listening = session.ListenAsync(output.Writer, stop.Token);
        time.Advance(TimeSpan.FromSeconds(2));
        terminal.Send("+ 1.0 g\r\n");
        Assert.Equal("+ 1.0 g\r\n", await TextAsync());
        await StopAsync(listening);
    }

    [Fact]
    public async Task A_line_right_after_a_watchdogs_opening_may_be_half()
    {
        await using var session = await Sessions(new()).OpenAsync(afterSilence: true, stop.Token);
        var listening = session.ListenAsync(output.Writer, stop.Token);
        terminal.Send("1.0 g\r\n+ 2.0 g\r\n");
        Assert.Equal("+ 2.0 g\r\n", await TextAsync());
        await StopAsync(listening);
    }

    [Fact]
    public async Task A_record_has_the_given_clocks_moment()
    {
        await using var session = await Sessions(new()).OpenAsync(afterSilence: true, stop.Token);
        var listening = session.ListenAsync(output.Writer, stop.Token);
        time.Advance(TimeSpan.FromMinutes(7));
        terminal.Send("+ 1.0 g\r\n");
        Assert.Equal(time.GetUtcNow(), (await output.Reader.ReadAsync(stop.Token)).At);
        await StopAsync(listening);
    }

    [Fact]
    public async Task The_settings_of_the_station_are_applied_to_the_port()
    {
        await using var session = await Sessions(new() { Baud = 2400, DataBits = 7, Parity = "even", StopBits = 2, Flow = "xon-xoff" }).OpenAsync(afterSilence: false, stop.Token);
        Assert.Equal(new(2400, 7, SerialParity.Even, 2, SerialFlow.XonXoff), await control.NextAsync(stop.Token));
    }

    [Fact]
    public async Task What_the_driver_ignores_is_named()
    {
        // The driver of pseudo-terminals keeps 8 bits without parity, whatever is asked for.
        await using var session = await Sessions(new() { DataBits = 7, Parity = "even" }).OpenAsync(afterSilence: false, stop.Token);
        Assert.Contains("dataBits, parity", session.Remark, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_driver_that_takes_all_is_no_remark()
    {
        await using var session = await Sessions(new() { Baud = 115200 }).OpenAsync(afterSilence: false, stop.Token);
        Assert.Null(session.Remark);
    }

    public void Dispose()
    {
        stop.Dispose();
        terminal.Dispose();
    }

    private SerialSessions Sessions(ConnectionOptions connection)
    {
        connection.Path = terminal.Path;
        var plan = SerialPlan.For(new() { Id = "scale", Role = "scale", Dialect = "sign-value" }, connection);
        return new(plan with { ReopenAfter = null }, control, time);
    }

    private async Task<string> TextAsync() => Encoding.Latin1.GetString((await output.Reader.ReadAsync(stop.Token)).Bytes.Span);

    private async Task StopAsync(Task listening)
    {
        await stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => listening);
    }
}
