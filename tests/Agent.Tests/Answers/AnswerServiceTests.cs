using CaptureAgent.Agent.Answers;
using CaptureAgent.Agent.Answers.Tones;
using CaptureAgent.Agent.Answers.Voice;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Recording;
using CaptureAgent.Agent.Tests.Recording;
using CaptureAgent.Agent.Tests.Support;
using CaptureAgent.Store;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Answers;

public sealed class AnswerServiceTests : IAsyncDisposable
{
    private static readonly DateTimeOffset At = new(2026, 3, 2, 5, 41, 10, TimeSpan.Zero);

    private readonly FakeTimeProvider time = new(At);
    private readonly StandInPlayer player = new();
    private readonly StandInVoice voice = new();
    private readonly ListLogger log = new();
    private readonly AnswerService answers;

    public AnswerServiceTests()
    {
        answers = new AnswerService(player, voice, SpokenTexts.In("en"), null, new QuietHours(null, null, 60, 15, TimeZoneInfo.Utc), time, log);
        answers.Start();
    }

    public ValueTask DisposeAsync() => answers.DisposeAsync();

    [Fact]
    public async Task A_weighing_is_a_tone_and_then_words()
    {
        answers.Write(Weighing("AM-0147"));

        await Next(player.Heard);
        await Next(voice.Heard);
        Assert.Equal([LengthOf(Answer.GotIt)], player.Played);
        Assert.Equal(["A M one four seven, one hundred eighty-six point four, up nine"], voice.Said);
    }

    [Fact]
    public async Task A_loudspeaker_that_hangs_holds_up_nobody_and_fills_nothing()
    {
        player.Hangs = true;
        answers.Write(Weighing("AM-0147"));
        await Next(player.Heard);

        // Each returns, or this test would never end.
        for (var i = 0; i < 10_000; i++)
            answers.Write(Weighing($"AM-{i:0000}"));

        Assert.InRange(answers.Dropped, 9_900, 10_000);
        player.Hangs = false;
        answers.Write(new FindingEvent(At, "AM-0148", "loss", "red", ""));
        player.LetGo();
        await Next(player.Heard);
        Assert.Equal(LengthOf(Answer.Urgent), player.Played[1]);
    }

    [Fact]
    public async Task A_new_tone_cuts_the_voice_short_but_not_when_it_says_what_is_urgent()
    {
        voice.Talks = true;
        answers.Write(Weighing("AM-0147"));
        await Next(voice.Heard);
        answers.Write(new ScanEvent(At, "scanner", "AM-0148", "waits", null));
        await Next(player.Heard);
        await Next(player.Heard);
        Assert.Equal(1, voice.Cut);

        answers.Write(new FindingEvent(At, "AM-0148", "loss", "red", ""));
        await Next(voice.Heard);
        answers.Write(new ScanEvent(At, "scanner", "AM-0149", "waits", null));
        voice.Talks = false;
        voice.End();
        await Next(player.Heard);
        Assert.Equal(1, voice.Cut);
    }

    [Fact]
    public async Task A_broken_loudspeaker_is_told_once_an_outage()
    {
        player.Fault = "no sound card";
        for (var i = 0; i < 3; i++)
            await UntilHeard(player.Heard);

        player.Fault = null;
        await UntilHeard(voice.Heard);
        Assert.Single(log.At(LogLevel.Warning));
        Assert.Contains("no sound card", log.At(LogLevel.Warning)[0], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Got_it_is_not_heard_before_it_is_on_disk()
    {
        var store = new RecorderTests.FailingStore([]) { Fault = new StoreException("The disk is full.", "Make room.") };
        var recorder = new Recorder(store, new DecisionRows("east-room", "Etc/UTC"), new AnsweredEvents(answers, new NoEvents()), NullLogger.Instance);

        recorder.Take([Weighing("AM-0147")], At);
        await Next(player.Heard);
        Assert.Equal([LengthOf(Answer.Urgent)], player.Played);

        store.Fault = null;
        recorder.Retry(At.AddSeconds(2));
        await Next(player.Heard);
        Assert.Equal(LengthOf(Answer.GotIt), player.Played[1]);
    }

    private static int LengthOf(Answer answer) => 44 + 2 * ToneBook.Samples(answer).Length;

    private static WeighingEvent Weighing(string chick) =>
        new(At, chick, 186.4m, 0.11m, "accepted", [], null, 8.2m, 24, "scale") { GainGrams = 9.2m, Id = Guid.CreateVersion7() };

    // A loudspeaker that failed is left alone for a while of the fake time, which begins when the failure has been seen.
    private async Task UntilHeard(SemaphoreSlim heard)
    {
        do
        {
            time.Advance(AnswerService.FaultPause);
            answers.Write(Weighing("AM-0147") with { At = time.GetUtcNow() });
        }
        while (!await heard.WaitAsync(TimeSpan.FromMilliseconds(20), TestContext.Current.CancellationToken));
    }

    private static async Task Next(SemaphoreSlim heard) =>
        Assert.True(await heard.WaitAsync(TimeSpan.FromSeconds(30), TestContext.Current.CancellationToken), "Nothing came in 30 s.");
}
