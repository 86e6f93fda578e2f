using CaptureAgent.Agent.Answers.Voice;
using CaptureAgent.Agent.Events;

namespace CaptureAgent.Agent.Answers;

/// <summary>Which event gets which answer. Pure.</summary>
/// <remarks>
/// <see cref="Answer.GotIt"/> is given to decisions alone: they are told only once they are on disk.
/// What is new and has no place here is to be looked at, so that no alert is ever silent.
/// </remarks>
internal static class AnswerMap
{
    /// <returns>Null: the event is no news to a keeper's ears.</returns>
    public static Reply? Of(StationEvent station) => station switch
    {
        WeighingEvent weighing => Of(weighing),
        FeedEvent feed => new(feed.At, Answer.GotIt, new("feed", feed.Chick)),
        CropEvent crop => new(crop.At, Answer.GotIt, new("crop", crop.Chick)),
        ObservationEvent seen => new(seen.At, Answer.GotIt, new("observed", seen.Chick)),
        ChoreEvent chore => new(chore.At, Answer.GotIt, new($"chore.{chore.Chore}")),
        UndoEvent undo => new(undo.At, Answer.GotIt, new($"undo.{undo.Undone}", undo.Chick)),
        IntakeEvent intake => new(intake.At, null, new("intake", intake.Chick, intake.Grams)),
        CheckEvent { Ok: true } check => new(check.At, Answer.GotIt, new("check.good", Grams: check.Grams)),
        CheckEvent check => new(check.At, Answer.Refused, new("check.off", Gain: check.ErrorGrams)),
        ProbeCheckEvent { Ok: true } probe => new(probe.At, Answer.GotIt, new("probe-check.good", Celsius: probe.ErrorCelsius)),
        ProbeCheckEvent probe => new(probe.At, Answer.Refused, new("probe-check.off", Celsius: probe.ErrorCelsius)),
        ScanEvent scan => Of(scan),
        FindingEvent { Severity: "red" } red => new(red.At, Answer.Urgent, new($"finding.{red.Finding}", red.Chick)),
        FindingEvent { Severity: "look" } look => new(look.At, Answer.Look, new($"finding.{look.Finding}", look.Chick)),
        // What only moves its forecast is no news to the ear.
        BatchEvent { StateChanged: true } batch => Of(batch),
        DueEvent due => new(due.At, Answer.Look, new($"due.{due.Due}", due.Chick)),
        DeviceEvent { State: "down" or "silent" } device => new(device.At, Answer.Look, new($"device.{device.State}", Device: device.Device)),
        AlertEvent alert => new(alert.At, OfAlert(alert.Alert), new($"alert.{alert.Alert}", alert.Chick, Device: alert.Device)),
        _ => null,
    };

    private static Reply Of(WeighingEvent weighing)
    {
        if (weighing.Verdict == "accepted")
            return new(weighing.At, Answer.GotIt, new("weighed", weighing.Chick, weighing.Grams, weighing.GainGrams));
        // It agrees with the weight that counts: no refusal, and nothing new in the growth record either.
        return weighing.Confirms
            ? new(weighing.At, Answer.Heard, new("confirmed", weighing.Chick, weighing.Grams))
            : new(weighing.At, Answer.Refused, new("refused", weighing.Chick) { Reasons = [.. weighing.Reasons.Select(reason => $"reason.{reason}")] });
    }

    private static Reply Of(ScanEvent scan) => scan.Taken is "misread" or "unreadable"
        ? new(scan.At, Answer.Refused, new($"scan.{scan.Taken}"))
        : new(scan.At, Answer.Heard, null);

    private static Reply? Of(BatchEvent batch) => batch.State switch
    {
        "stop" => new(batch.At, Answer.Urgent, new("batch.stop", Celsius: batch.Celsius)),
        "too-hot" or "discard" or "too-cold" or "stir" => new(batch.At, Answer.Look, new($"batch.{batch.State}", Celsius: batch.Celsius)),
        "in-range" or "one-reading" => new(batch.At, null, new($"batch.{batch.State}", Celsius: batch.Celsius)),
        _ => null,
    };

    private static Answer OfAlert(string alert) => alert switch
    {
        "not-stored" or "lost" or "feed-late" or "observation-urgent" => Answer.Urgent,
        "code-expired" or "fed-dropped" or "crop-dropped" or "reweigh-dropped" or "check-dropped" or "observation-dropped" or "probe-check-dropped" or "no-reading" or "no-check-mass"
            or "nothing-to-undo" or "empty-brooder" or "intake-implausible" => Answer.Refused,
        "batch-discard-soon" => Answer.Look,

        // Formula that may burn, or a chick that was fed from what is not in range.
        _ when alert.StartsWith("batch-", StringComparison.Ordinal) => Answer.Urgent,
        _ => Answer.Look,
    };
}
