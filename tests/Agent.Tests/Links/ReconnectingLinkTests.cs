using CaptureAgent.Agent.Links;
using CaptureAgent.Agent.Tests.Support;
using CaptureAgent.Agent.Trace;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Links;

public sealed class ReconnectingLinkTests : IAsyncDisposable
{
    private readonly FakeTimeProvider time = new(new DateTimeOffset(2026, 3, 2, 5, 0, 0, TimeSpan.Zero));
    private readonly ScriptedSource source = new();
    private readonly LinkUnderTest link;

    public ReconnectingLinkTests() =>
        link = new(log => new ReconnectingLink("scale", source, time, log, LinkTimings.Default), Token);

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Fifty_failed_tries_are_one_record_and_one_warning()
    {
        await time.AdvanceUntilAsync(() => source.Attempts >= 50, Token);
        Assert.Equal("It is absent. Plug it in.", (await link.DownAsync()).Detail);
        Assert.Equal(0, link.Waiting);
        Assert.Single(link.Log.At(LogLevel.Warning));

        source.Plug();
        await time.AdvanceUntilAsync(() => link.Waiting > 0, Token);
        await link.UpAsync();
        await time.AdvanceInStepsAsync(TimeSpan.FromSeconds(10), Token);
        Assert.Equal(0, link.Waiting);
        Assert.Single(link.Log.At(LogLevel.Warning));
        Assert.Single(link.Log.At(LogLevel.Information));
    }

    [Fact]
    public async Task Another_reason_is_another_record_but_no_other_warning()
    {
        await link.DownAsync();
        source.Fail("It is busy.");
        await time.AdvanceUntilAsync(() => link.Waiting > 0, Token);
        Assert.Equal("It is busy. Mend it.", (await link.DownAsync()).Detail);
        Assert.Single(link.Log.At(LogLevel.Warning));
    }

    [Fact]
    public async Task That_a_lost_device_is_not_there_is_nothing_new()
    {
        source.Plug();
        await time.AdvanceUntilAsync(() => source.OpenNow == 1, Token);
        await link.DownAsync();
        await link.UpAsync();
        source.Fail("It is absent.", isAbsence: true);
        Assert.Equal("It was lost. Plug it in.", (await link.DownAsync()).Detail);
        await time.AdvanceInStepsAsync(TimeSpan.FromMinutes(1), Token);
        Assert.Equal(0, link.Waiting);

        source.Fail("It is busy.");
        await time.AdvanceUntilAsync(() => link.Waiting > 0, Token);
        Assert.Equal("It is busy. Mend it.", (await link.DownAsync()).Detail);
        source.Fail("It is absent.", isAbsence: true);
        await time.AdvanceUntilAsync(() => link.Waiting > 0, Token);
        Assert.Equal("It is absent. Mend it.", (await link.DownAsync()).Detail);
    }

    [Fact]
    public async Task The_pauses_grow_to_seconds_and_no_further()
    {
        await time.AdvanceInStepsAsync(TimeSpan.FromMinutes(2), Token);
        var before = source.Attempts;
        await time.AdvanceInStepsAsync(TimeSpan.FromMinutes(5), Token);
        // With a pause of 5 s at most: 60 tries, fewer where the steps of fake time are coarse.
        Assert.InRange(source.Attempts - before, 20, 75);
    }

    [Fact]
    public async Task A_device_that_opens_and_dies_at_once_is_not_opened_in_a_tight_loop()
    {
        source.DiesAtOnce = true;
        source.Plug();
        await time.AdvanceInStepsAsync(TimeSpan.FromMinutes(5), Token);
        Assert.InRange(source.Attempts, 20, 120);
        Assert.Single(link.Log.At(LogLevel.Warning));
        Assert.Empty(link.Log.At(LogLevel.Information));
    }

    [Fact]
    public async Task After_a_good_session_the_first_try_comes_at_once()
    {
        source.Plug();
        await time.AdvanceUntilAsync(() => source.OpenNow == 1, Token);
        await time.AdvanceInStepsAsync(TimeSpan.FromMinutes(1), Token);
        await link.DownAsync();
        await link.UpAsync();
        var before = source.Attempts;

        source.Fail("It is absent.");
        Assert.Equal("It was lost. Plug it in.", (await link.DownAsync()).Detail);
        Assert.Equal("It is absent. Mend it.", (await link.DownAsync()).Detail);
        Assert.Equal(before + 1, source.Attempts);
    }

    [Fact]
    public async Task The_device_is_closed_before_its_loss_is_told()
    {
        source.Plug();
        await time.AdvanceUntilAsync(() => source.OpenNow == 1, Token);
        await link.DownAsync();
        await link.UpAsync();
        source.Fail("It is absent.");
        await link.DownAsync();
        Assert.Equal(0, source.OpenNow);
    }

    [Fact]
    public async Task A_port_that_is_opened_anew_after_silence_was_never_away()
    {
        source.Plug();
        await time.AdvanceUntilAsync(() => source.OpenNow == 1, Token);
        await link.DownAsync();
        await link.UpAsync();
        var before = source.Attempts;
        source.FallSilent();
        await time.AdvanceUntilAsync(() => source.Attempts > before, Token);
        Assert.Equal(0, link.Waiting);
    }

    [Fact]
    public async Task Stopping_between_two_tries_is_prompt_and_no_error()
    {
        await link.DownAsync();
        await link.StopAsync();
        Assert.Equal(0, link.Waiting);
        Assert.Empty(link.Log.At(LogLevel.Error));
    }

    public ValueTask DisposeAsync() => link.DisposeAsync();
}
