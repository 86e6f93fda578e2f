using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Links;
using CaptureAgent.Agent.Links.Serial;
using CaptureAgent.Agent.Tests.Support;
using CaptureAgent.Agent.Trace;
using Microsoft.Extensions.Logging;
using Xunit;

namespace CaptureAgent.Agent.Tests.Links;

/// <summary>The link as the agent builds it, on real pseudo-terminals.</summary>
public sealed class SerialLinkTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Bytes_arrive_as_they_were_sent_however_they_were_cut()
    {
        using var terminal = new PseudoTerminal();
        await using var link = Open("scanner", "line", terminal.Path);
        await link.UpAsync();

        terminal.Send("AM-");
        var before = await link.NextAsync();
        terminal.Send("0147\rAM-0148\r");
        Assert.Equal("0147\rAM-0148\r", await link.TextAsync(13));
        Assert.Equal("AM-"u8, before.Bytes.Span);
        Assert.Equal("device", before.Device);
        Assert.Null(before.Source);
    }

    [Fact]
    public async Task Every_byte_value_arrives_unchanged()
    {
        using var terminal = new PseudoTerminal();
        await using var link = Open("scanner", "line", terminal.Path);
        await link.UpAsync();

        var all = new string([.. Enumerable.Range(0, 256).Concat(Enumerable.Repeat(255, 3)).Select(value => (char)value)]);
        terminal.Send(all);
        Assert.Equal(all, await link.TextAsync(all.Length));
    }

    [Fact]
    public async Task A_pulled_cable_is_down_and_the_same_name_on_another_port_is_up_again()
    {
        using var path = new DevicePath();
        using var first = new PseudoTerminal();
        path.PointTo(first.Path);
        await using var link = Open("scanner", "line", path.Path);
        await link.UpAsync();

        path.Remove();
        first.HangUp();
        Assert.Contains("was lost", (await link.DownAsync()).Detail, StringComparison.Ordinal);
        // That it is not there now is no news.
        using var second = new PseudoTerminal();
        path.PointTo(second.Path);
        await link.UpAsync();
        second.Send("AM-0147\r");
        Assert.Equal("AM-0147\r", await link.TextAsync(8));
        Assert.Single(link.Log.At(LogLevel.Warning));
    }

    [Fact]
    public async Task What_was_sent_before_the_plug_was_pulled_still_arrives()
    {
        using var path = new DevicePath();
        using var terminal = new PseudoTerminal();
        path.PointTo(terminal.Path);
        await using var link = Open("scanner", "line", path.Path);
        await link.UpAsync();

        path.Remove();
        terminal.Send("AM-0147\r");
        Assert.Equal("AM-0147\r", await link.TextAsync(8));
        terminal.HangUp();
        await link.DownAsync();
    }

    [Fact]
    public async Task A_port_that_another_link_has_is_busy()
    {
        using var terminal = new PseudoTerminal();
        await using var owner = Open("scanner", "line", terminal.Path);
        await owner.UpAsync();

        await using (var second = Open("scanner", "line", terminal.Path))
            Assert.Contains($"{terminal.Path} is busy", (await second.DownAsync()).Detail, StringComparison.Ordinal);

        terminal.Send("AM-0147\r");
        Assert.Equal("AM-0147\r", await owner.TextAsync(8));
    }

    [Theory]
    [InlineData("scale", "header-comma")]
    [InlineData("scale", "request-reply")]
    [InlineData("probe", "text")]
    public async Task Half_a_first_line_of_an_instrument_is_dropped(string role, string dialect)
    {
        using var terminal = new PseudoTerminal();
        await using var link = Open(role, dialect, terminal.Path);
        await link.UpAsync();

        terminal.Send("6.4");
        terminal.Send(" g\r\n 186.4 g\r\n");
        Assert.Equal(" 186.4 g\r\n", (await link.TextAsync(10)).TrimStart('\n'));
    }

    [Fact]
    public async Task After_every_opening_the_first_line_is_dropped_again()
    {
        using var path = new DevicePath();
        using var first = new PseudoTerminal();
        path.PointTo(first.Path);
        await using var link = Open("scale", "sign-value", path.Path);
        await link.UpAsync();
        first.Send("x\r\n+ 1.0 g\r\n");
        Assert.Equal("+ 1.0 g\r\n", await link.TextAsync(9));

        using var second = new PseudoTerminal();
        path.PointTo(second.Path);
        first.HangUp();
        await link.DownAsync();
        await link.UpAsync();
        second.Send("2.0 g\r\n+ 3.0 g\r\n");
        Assert.Equal("+ 3.0 g\r\n", await link.TextAsync(9));
    }

    [Fact]
    public async Task Bytes_from_before_the_opening_are_never_taken_as_fresh()
    {
        using var terminal = new PseudoTerminal();
        terminal.Send("AM-0001\nAM-0002\n");
        await using var link = Open("scanner", "line", terminal.Path);
        await link.UpAsync();

        terminal.Send("AM-0147\r");
        Assert.Equal("AM-0147\r", await link.TextAsync(8));
    }

    [Fact]
    public async Task A_scale_that_speaks_when_asked_is_asked_again_and_again()
    {
        using var terminal = new PseudoTerminal();
        await using var link = Open("scale", "request-reply", terminal.Path);
        await link.UpAsync();

        var asked = "";
        while (asked.Length < 12)
            asked += await terminal.ReceiveAsync(Token);
        Assert.StartsWith("SI\r\nSI\r\nSI\r\n", asked, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_device_that_talks_by_itself_is_sent_nothing()
    {
        using var terminal = new PseudoTerminal();
        await using var link = Open("scale", "header-comma", terminal.Path);
        await link.UpAsync();
        terminal.Send("x\r\n+ 1.0 g\r\n");
        await link.TextAsync(9);

        using var enough = CancellationTokenSource.CreateLinkedTokenSource(Token);
        var received = terminal.ReceiveAsync(enough.Token);
        await link.StopAsync();
        await enough.CancelAsync();
        await Assert.ThrowsAnyAsync<Exception>(() => received);
    }

    [Fact]
    public async Task Stopping_ends_while_nothing_comes_and_is_no_fault()
    {
        using var terminal = new PseudoTerminal();
        await using var link = Open("scale", "header-comma", terminal.Path);
        await link.UpAsync();

        await link.StopAsync();
        Assert.Equal(0, link.Waiting);
        Assert.Empty(link.Log.At(LogLevel.Warning));
        Assert.Empty(link.Log.At(LogLevel.Error));
    }

    [Fact]
    public async Task Stopping_ends_while_the_output_is_full()
    {
        using var terminal = new PseudoTerminal();
        await using var link = Open("scanner", "line", terminal.Path, capacity: 1);
        terminal.Send("AM-0147\r");
        await link.StopAsync();
        Assert.Equal(1, link.Waiting);
    }

    [Fact]
    public async Task A_full_output_is_waited_for_and_nothing_is_lost()
    {
        using var terminal = new PseudoTerminal();
        await using var link = Open("scanner", "line", terminal.Path, capacity: 1);
        await link.UpAsync();
        var sent = string.Concat(Enumerable.Range(0, 200).Select(number => $"AM-{number:D4}\r"));
        var sending = Task.Run(() => { foreach (var character in sent.Chunk(3)) terminal.Send(new string(character)); }, Token);
        Assert.Equal(sent, await link.TextAsync(sent.Length));
        await sending;
    }

    [Fact]
    public async Task The_moment_of_a_record_is_not_before_its_bytes_were_sent()
    {
        using var terminal = new PseudoTerminal();
        await using var link = Open("scanner", "line", terminal.Path);
        var up = await link.UpAsync();
        var sent = TimeProvider.System.GetUtcNow();
        terminal.Send("AM-0147\r");
        var record = await link.NextAsync();
        Assert.InRange(record.At, sent, TimeProvider.System.GetUtcNow());
        Assert.True(up.At <= record.At);
        Assert.Equal(TimeSpan.Zero, record.At.Offset);
    }

    [Fact]
    public async Task A_silent_port_is_opened_anew_without_a_word()
    {
        using var terminal = new PseudoTerminal();
        var control = new RecordingPortControl();
        var plan = Plan("scale", "header-comma", terminal.Path) with { ReopenAfter = TimeSpan.FromMilliseconds(5) };
        await using var link = new LinkUnderTest(
            log => new ReconnectingLink("device", new SerialSessions(plan, control, TimeProvider.System), TimeProvider.System, log, LinkTimings.Default), Token);
        await link.UpAsync();

        for (var opened = 0; opened < 3; opened++)
            await control.NextAsync(Token).AsTask().WaitAsync(TimeSpan.FromSeconds(30), Token);
        Assert.Equal(0, link.Waiting);
        Assert.Empty(link.Log.At(LogLevel.Warning));
    }

    private static SerialPlan Plan(string role, string dialect, string path)
    {
        var device = Device(role, dialect, path);
        return SerialPlan.For(device, device.Connection!);
    }

    private static DeviceOptions Device(string role, string dialect, string path) =>
        new() { Id = "device", Role = role, Dialect = dialect, PollMilliseconds = 20, Connection = new() { Path = path } };

    private static LinkUnderTest Open(string role, string dialect, string path, int capacity = 1000) =>
        new(log => new LinkFactory(TimeProvider.System, log).Create(Device(role, dialect, path)), Token, capacity);
}
