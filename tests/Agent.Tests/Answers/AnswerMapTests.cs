using System.Text.Json.Serialization;
using CaptureAgent.Agent.Answers;
using CaptureAgent.Agent.Answers.Voice;
using CaptureAgent.Agent.Events;
using Xunit;

namespace CaptureAgent.Agent.Tests.Answers;

public sealed class AnswerMapTests
{
    private static readonly DateTimeOffset At = new(2026, 3, 2, 5, 41, 10, TimeSpan.Zero);

    public static TheoryData<string, string?, string?> Table() => new()
    {
        { "weighing accepted", "GotIt", "weighed" },
        { "weighing rejected", "Refused", "refused" },
        { "weighing confirming", "Heard", "confirmed" },
        { "feed", "GotIt", "feed" },
        { "undo weighing", "GotIt", "undo.weighing" },
        { "undo feed", "GotIt", "undo.feed" },
        { "undo crop", "GotIt", "undo.crop" },
        { "undo observation", "GotIt", "undo.observation" },
        { "undo chore", "GotIt", "undo.chore" },
        { "undo batch", "GotIt", "undo.batch" },
        { "crop", "GotIt", "crop" },
        { "observation", "GotIt", "observed" },
        { "alert observation-urgent", "Urgent", "alert.observation-urgent" },
        { "chore", "GotIt", "chore.wash" },
        { "intake", null, "intake" },
        { "check good", "GotIt", "check.good" },
        { "probe-check good", "GotIt", "probe-check.good" },
        { "probe-check off", "Refused", "probe-check.off" },
        { "batch one-reading", null, "batch.one-reading" },
        { "alert batch-stop", "Urgent", "alert.batch-stop" },
        { "alert batch-too-cold", "Urgent", "alert.batch-too-cold" },
        { "alert batch-discard-soon", "Look", "alert.batch-discard-soon" },
        { "alert batch-discard", "Urgent", "alert.batch-discard" },
        { "alert batch-unmeasured", "Urgent", "alert.batch-unmeasured" },
        { "alert fed-dropped", "Refused", "alert.fed-dropped" },
        { "alert not-formula", "Look", "alert.not-formula" },
        { "check off", "Refused", "check.off" },
        { "scan waits", "Heard", null },
        { "scan card", "Heard", null },
        { "scan misread", "Refused", "scan.misread" },
        { "scan unreadable", "Refused", "scan.unreadable" },
        { "finding red", "Urgent", "finding.loss" },
        { "finding look", "Look", "finding.stall" },
        { "finding note", null, null },
        { "batch stop", "Urgent", "batch.stop" },
        { "batch too-hot", "Look", "batch.too-hot" },
        { "batch in-range", null, "batch.in-range" },
        { "batch warming", null, null },
        { "batch forecast", null, null },
        { "due", "Look", "due.feed" },
        { "device down", "Look", "device.down" },
        { "device up", null, null },
        { "alert not-stored", "Urgent", "alert.not-stored" },
        { "alert code-expired", "Refused", "alert.code-expired" },
        { "alert never-heard-of", "Look", "alert.never-heard-of" },
        { "tare-after", null, null },
        { "placed", null, null },
        { "lifted", null, null },
        { "tare", null, null },
        { "probe", null, null },
        { "probe-lag", null, null },
    };

    [Theory]
    [MemberData(nameof(Table))]
    public void Each_event_has_its_answer(string what, string? tone, string? said)
    {
        var reply = AnswerMap.Of(Event(what));

        Assert.Equal(tone, reply?.Tone?.ToString());
        Assert.Equal(said, reply?.Said?.Key);
    }

    [Fact]
    public void Got_it_is_said_of_decisions_alone()
    {
        foreach (var what in Table().Select(row => row.Data.Item1))
        {
            if (AnswerMap.Of(Event(what))?.Tone == Answer.GotIt)
                Assert.IsAssignableFrom<DecisionEvent>(Event(what));
        }
    }

    [Fact]
    public void The_table_has_every_kind_of_event()
    {
        var known = typeof(EventJsonContext).GetCustomAttributesData()
            .Where(attribute => attribute.AttributeType == typeof(JsonSerializableAttribute)).Select(attribute => (Type)attribute.ConstructorArguments[0].Value!);

        Assert.Empty(known.Except(Table().Select(row => Event(row.Data.Item1).GetType())));
    }

    [Fact]
    public void What_is_said_of_an_event_has_a_sentence_in_every_language()
    {
        foreach (var texts in SpokenTexts.Languages.Select(SpokenTexts.In))
        {
            foreach (var said in Table().Select(row => AnswerMap.Of(Event(row.Data.Item1))?.Said).OfType<Saying>())
                Assert.NotEqual("", texts.Of(said));
        }
    }

    private static StationEvent Event(string what) => what.Split(' ') switch
    {
        ["weighing", "accepted"] => Weighing("accepted") with { GainGrams = 9.2m },
        ["weighing", "rejected"] => Weighing("rejected", "after-feed"),
        ["weighing", _] => Weighing("rejected", "already-weighed") with { Confirms = true },
        ["feed"] => new FeedEvent(At, "AM-0147", 1, "in-range"),
        ["undo", var undone] => new UndoEvent(At, undone is "chore" or "batch" ? null : "AM-0147", undone),
        ["crop"] => new CropEvent(At, "AM-0147"),
        ["observation"] => new ObservationEvent(At, "AM-0147", "listless"),
        ["chore"] => new ChoreEvent(At, "wash"),
        ["intake"] => new IntakeEvent(At, "AM-0147", 14.6m, 0.2m, 7.8m),
        ["check", var ok] => new CheckEvent(At, "scale", 200.1m, 200m, 0.1m, 0.2m, ok == "good", ""),
        ["probe-check", var ok] => new ProbeCheckEvent(At, "probe", "ice", 0.3m, 0m, 0.3m, 1m, ok == "good", ""),
        ["scan", var taken] => new ScanEvent(At, "scanner", "AM-0147", taken, null),
        ["finding", var severity] => new FindingEvent(At, "AM-0147", severity == "red" ? "loss" : "stall", severity, ""),
        ["batch", "forecast"] => new BatchEvent(At, 3, "stop", 39.8m, null, At),
        ["batch", var state] => new BatchEvent(At, 3, state, 39.8m, null, null) { StateChanged = true },
        ["due"] => new DueEvent(At, "feed", "AM-0147", At, ""),
        ["device", var state] => new DeviceEvent(At, "scale", state, null),
        ["alert", var alert] => new AlertEvent(At, alert, "AM-0147", null, ""),
        ["tare-after"] => new TareAfterEvent(At, "scale", "AM-0147", 8.2m, 8.3m, 0.1m, 0.05m, false, null),
        ["probe-lag"] => new ProbeLagEvent(At, "probe", 5.2),
        ["placed"] => new PlacedEvent(At, "scale", null),
        ["lifted"] => new LiftedEvent(At, "scale", null),
        ["tare"] => new TareEvent(At, "scale", 8.2m, 0.05m),
        _ => new ProbeEvent(At, "probe", 39.8m, 0.2m, true, 39.8m),
    };

    private static WeighingEvent Weighing(string verdict, params string[] reasons) =>
        new(At, "AM-0147", 186.4m, 0.11m, verdict, reasons, reasons.Length == 0 ? null : "Weigh tomorrow.", 8.2m, 24, "scale");
}
