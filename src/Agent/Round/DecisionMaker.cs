using System.Security.Cryptography;
using System.Text;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Feeding;
using CaptureAgent.Agent.Weighing;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Round;

/// <summary>A placing that is to be decided, and the code that names it.</summary>
/// <param name="Note">Goes in front of the remedy.</param>
internal sealed record Attempt(string Device, string? Code, DateTimeOffset At, Placing Placing, string Note = "");

/// <summary>Best value of a load, in grams (NaN if there is none), with what its uncertainty is made of.</summary>
internal readonly record struct Measured(double Grams, double StandardError, Rest? Tare, double Division);

/// <summary>Turns measured loads and scanned cards into decisions, and keeps the ledger in step with them.</summary>
/// <param name="accuracy">Largest error in grams within a scale's specification, by device; see <see cref="Uncertainty.Accuracy"/> where it is not given.</param>
internal sealed partial class DecisionMaker(
    string station, NurseryDay days, EmptyingGap emptying, IReadOnlyDictionary<string, double> accuracy, Cards cards, Ledger ledger)
{
    private Ledger ledger = ledger;
    private Judgement judgement = new(ledger, days, emptying);
    private long sequence;
    private int? batch;
    private DateOnly batchDay;

    public bool? FitsHistory(string code, double grams, DateTimeOffset at) => judgement.FitsHistory(code, grams, at);

    /// <summary>What the chick should weigh, in grams, from its own weights; null if it has none.</summary>
    public double? Expected(string code, DateTimeOffset at) => judgement.Expected(code, at);

    /// <summary>The register or the record changed under us.</summary>
    public void Reload(Ledger anew)
    {
        ledger = anew;
        judgement = new Judgement(anew, days, emptying);
    }

    /// <summary>A settled weight: accepted, or rejected for what it would mean.</summary>
    public void Decide(Attempt attempt, in Measured weight, List<StationEvent> events)
    {
        var code = attempt.Code!;
        var (grams, uncertainty, judged) = Judge(attempt, weight, cards.TakePermit(code, attempt.At));
        Emit(attempt, weight, grams, uncertainty, judged, events);
        if (judged.Reasons.Count == 0)
        {
            var decided = (WeighingEvent)events[^1];
            ledger.Add(code, new Weight(decided.Id, decided.Day, attempt.At, grams, uncertainty));
        }

        if (judged.Look is { } look)
            events.Add(new AlertEvent(attempt.At, "look", code, attempt.Device, look));
    }

    /// <summary>What a settled weight would mean, without deciding anything.</summary>
    /// <param name="mayReplace">The keeper asked for this chick to be weighed again.</param>
    public (decimal Grams, decimal Uncertainty, Judged Judged) Judge(Attempt attempt, in Measured weight, bool mayReplace)
    {
        var grams = Milligram.Nearest(weight.Grams);
        var uncertainty = Milligram.Nearest(UncertaintyOf(attempt, weight));
        return (grams, uncertainty, judgement.Judge(attempt.Code!, grams, uncertainty, attempt.At, mayReplace));
    }

    /// <summary>The best value of a load that is refused; null where it is not known.</summary>
    public (decimal? Grams, decimal? Uncertainty) BestValue(Attempt attempt, in Measured weight)
    {
        var known = !double.IsNaN(weight.Grams) && weight.Tare is not null;
        return (known ? Milligram.Nearest(weight.Grams) : null, known && !double.IsNaN(weight.StandardError) ? Milligram.Nearest(UncertaintyOf(attempt, weight)) : null);
    }

    /// <summary>Rejected before the weight could mean anything.</summary>
    public void Refuse(Attempt attempt, in Measured weight, string reason, List<StationEvent> events)
    {
        var (grams, uncertainty) = BestValue(attempt, weight);
        var day = days.Of(attempt.At);
        var age = attempt.Code is { } code ? judgement.AgeDays(code, day) : null;
        var judged = Judgement.Reject(reason, age, attempt.Code is { } named && grams is { } best ? judgement.Gain(named, day, best) : null);
        Emit(attempt, weight, grams, uncertainty, judged with { Remedy = attempt.Note + judged.Remedy }, events);
    }

    public void Feed(string code, DateTimeOffset at, List<StationEvent> events)
    {
        var feed = new FeedEvent(at, code, batch, batch is null ? null : "unmeasured") { Id = NextId("feed", at), Day = days.Of(at) };
        ledger.Add(code, new Feed(feed.Id, feed.Day, at));
        events.Add(feed);
        if (batch is { } number)
            events.Add(new AlertEvent(at, "batch-unmeasured", code, null, $"{code} was fed from batch {number}, whose temperature nobody has measured."));
        if (ledger.Find(code) is null)
            events.Add(new AlertEvent(at, "unknown-chick", code, null, $"The feed of {code} is written down, but the register has no such chick: add it, or check the code."));
    }

    /// <summary>A new batch of formula begins; nothing has measured it.</summary>
    public void Batch(DateTimeOffset at, List<StationEvent> events)
    {
        var day = days.Of(at);
        batch = day == batchDay ? batch + 1 : 1;
        batchDay = day;
        events.Add(new BatchEvent(at, batch!.Value, "unmeasured", null, null, null));
    }

    public void Undo(DateTimeOffset at, List<StationEvent> events)
    {
        var day = days.Of(at);
        if (ledger.Newest(day) is not { } newest)
        {
            events.Add(new AlertEvent(at, "nothing-to-undo", null, null, "There is no weighing and no feed of today to take back."));
            return;
        }

        ledger.Remove(newest.Code, newest.Id);
        events.Add(new UndoEvent(at, newest.Code, newest.IsFeed ? "feed" : "weighing") { Id = NextId("undo", at), UndoneId = newest.Id });
    }

    private void Emit(Attempt attempt, in Measured weight, decimal? grams, decimal? uncertainty, Judged judged, List<StationEvent> events) =>
        events.Add(new WeighingEvent(
            attempt.At, attempt.Code, grams, uncertainty, judged.Reasons.Count == 0 ? "accepted" : "rejected", judged.Reasons, judged.Remedy,
            weight.Tare is { } tare ? Milligram.Nearest(tare.Grams) : null, judged.AgeDays, attempt.Device)
        {
            Id = NextId("weighing", attempt.At),
            Day = days.Of(attempt.At),
            Fits = judged.Fits,
            Replaces = judged.Replaces,
            GainGrams = judged.GainGrams,
            Evidence = EvidenceText.Of(attempt.Placing, weight),
        });

    private double UncertaintyOf(Attempt attempt, in Measured weight) => Uncertainty.Combine(
        weight.StandardError, weight.Tare?.Uncertainty ?? 0,
        accuracy.GetValueOrDefault(attempt.Device, Uncertainty.Accuracy(weight.Grams + (weight.Tare?.Grams ?? 0), weight.Division)));

    // The same decision in a replay has the same id (a name-based UUID of version 8, RFC 9562): stored twice, it is one row.
    private Guid NextId(string kind, DateTimeOffset at)
    {
        var name = FormattableString.Invariant($"{station}/{kind}/{at.UtcTicks}/{sequence++}");
        var bytes = SHA256.HashData(Encoding.UTF8.GetBytes(name)).AsSpan(0, 16);
        bytes[6] = (byte)(bytes[6] & 0x0F | 0x80);
        bytes[8] = (byte)(bytes[8] & 0x3F | 0x80);
        return new Guid(bytes, bigEndian: true);
    }
}
