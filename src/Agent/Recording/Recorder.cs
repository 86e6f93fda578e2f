using CaptureAgent.Agent.Events;
using CaptureAgent.Store;
using Microsoft.Extensions.Logging;

namespace CaptureAgent.Agent.Recording;

/// <summary>The effects after the core: a decision is committed first and told afterwards; everything else is told at once, in order.</summary>
/// <remarks>
/// While the store cannot write, decisions wait here in their order and are tried again, with pauses that grow. The owner calls
/// <see cref="Retry"/> when <see cref="NextTry"/> has come; nothing happens by itself, so that the store has one owner.
/// </remarks>
internal sealed partial class Recorder(IDecisionStore store, DecisionRows rows, IEventOutput output, ILogger logger)
{
    /// <summary>Decisions that wait at most: several rounds of a large room.</summary>
    public const int Capacity = 1000;

    private static readonly TimeSpan FirstPause = TimeSpan.FromSeconds(0.25);

    private static readonly TimeSpan LongestPause = TimeSpan.FromSeconds(5);

    private readonly Queue<DecisionEvent> waiting = new();

    private TimeSpan pause = FirstPause;

    private string fault = "";

    /// <summary>Decisions that are not on disk yet.</summary>
    public int Waiting => waiting.Count;

    /// <summary>Decisions that will never be on disk: there was no room to keep them, or the store refuses such a row.</summary>
    public long Lost { get; private set; }

    /// <summary>When the store should be tried again; null if nothing waits.</summary>
    public DateTimeOffset? NextTry { get; private set; }

    /// <param name="now">For the pauses, and for <c>storedAt</c>.</param>
    public void Take(IReadOnlyList<StationEvent> events, DateTimeOffset now)
    {
        foreach (var station in events)
        {
            if (station is not DecisionEvent decision)
            {
                output.Write(station);
                continue;
            }

            if (decision.ToldFirst)
                output.Write(decision);
            if (!decision.IsKept)
                continue;
            if (waiting.Count > 0 || !TryStore(decision, now))
                Keep(decision);
        }
    }

    /// <summary>Tries to store what waits, oldest first: a later row may name an earlier one.</summary>
    public void Retry(DateTimeOffset now)
    {
        while (waiting.TryPeek(out var decision))
        {
            if (!TryStore(decision with { StoredAt = now }, now))
                return;
            waiting.Dequeue();
        }

        if (NextTry is not null)
            LogWritesAgain();
        (NextTry, pause) = (null, FirstPause);
    }

    /// <summary>The last try before the end. What still cannot be stored is said, so that a person can write it down.</summary>
    public void Close(DateTimeOffset now)
    {
        Retry(now);
        foreach (var decision in waiting)
            Tell(decision, now, "lost", $"The agent stops, and {Describe(decision)} is not on disk. Write it down.");
        Lost += waiting.Count;
        waiting.Clear();
    }

    /// <summary>True if nothing is left to do for this decision: it is on disk and told, or it never can be.</summary>
    private bool TryStore(DecisionEvent decision, DateTimeOffset now)
    {
        try
        {
            rows.Store(decision, store);
        }
        catch (StoreException failure)
        {
            if (NextTry is null)
                LogCannotWrite(failure.Message, failure.Remedy);
            fault = $"{failure.Message} {failure.Remedy}";
            NextTry = now + pause;
            pause = pause * 2 < LongestPause ? pause * 2 : LongestPause;
            return false;
        }
#pragma warning disable CA1031 // Whatever is wrong with one row, the round goes on and the keeper is told.
        catch (Exception refused)
#pragma warning restore CA1031
        {
            LogRefused(refused, decision.Name, decision.Id);
            Lost++;
            Tell(decision, decision.At, "not-stored", $"The store does not take {Describe(decision)}: {refused.Message} Write it down, and report this as a fault of the program.");
            return true;
        }

        if (!decision.ToldFirst)
            output.Write(decision);
        return true;
    }

    private void Keep(DecisionEvent decision)
    {
        if (waiting.Count < Capacity)
        {
            waiting.Enqueue(decision);

            // A note to a weighing that waits too, or what a probe has taught: nothing that a keeper has to write down.
            if (decision is not (TareAfterEvent or ProbeLagEvent))
                Tell(decision, decision.At, "not-stored", $"{Sentence(Describe(decision))} is not on disk yet; it is tried again by itself. {fault}");
            return;
        }

        Lost++;
        Tell(decision, decision.At, "lost", $"There is no room to keep {Describe(decision)} until the store can write again. Write it down. {fault}");
    }

    private void Tell(DecisionEvent decision, DateTimeOffset at, string alert, string text) =>
        output.Write(new AlertEvent(at, alert, ChickOf(decision), Device: null, text) { Grams = (decision as WeighingEvent)?.Grams });

    private static string? ChickOf(DecisionEvent decision) => decision switch
    {
        WeighingEvent weighing => weighing.Chick,
        FeedEvent feed => feed.Chick,
        IntakeEvent intake => intake.Chick,
        CropEvent crop => crop.Chick,
        UndoEvent undo => undo.Chick,
        TareAfterEvent tare => tare.Chick,
        ObservationEvent seen => seen.Chick,
        _ => null,
    };

    private static string Describe(DecisionEvent decision) => decision switch
    {
        WeighingEvent weighing => FormattableString.Invariant(
            $"the {weighing.Verdict} weighing of {weighing.Chick ?? "a chick without a code"}, {(weighing.Grams is { } grams ? $"{grams:0.###} g" : "without a weight")}"),
        FeedEvent feed => $"the feed of {feed.Chick}",
        IntakeEvent intake => FormattableString.Invariant($"the {intake.Grams:0.###} g that {intake.Chick} took"),
        CropEvent crop => $"the full crop of {crop.Chick}",
        ChoreEvent chore => $"the chore '{chore.Chore}'",
        CheckEvent check => FormattableString.Invariant($"the check of {check.Device}, {check.Grams:0.###} g for {check.ExpectedGrams:0.###} g"),
        TareAfterEvent tare => FormattableString.Invariant($"the tare after {tare.Chick ?? "a chick without a code"}, {tare.AfterGrams:0.###} g"),
        ObservationEvent seen => $"what was seen of {seen.Chick} ({seen.Observation})",
        BatchEvent batch => $"the state of batch {batch.Batch}, {batch.State}",
        ProbeCheckEvent check => $"the check of {check.Device}",
        ProbeLagEvent lag => $"the lag of {lag.Device}",
        UndoEvent undo => $"the undoing of the {undo.Undone}{(undo.Chick is null ? "" : $" of {undo.Chick}")}",
        _ => "a decision",
    };

    private static string Sentence(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    [LoggerMessage(200, LogLevel.Error, "The store cannot write: {Reason} {Remedy}")]
    private partial void LogCannotWrite(string reason, string remedy);

    [LoggerMessage(201, LogLevel.Information, "The store writes again; nothing waits any more")]
    private partial void LogWritesAgain();

    [LoggerMessage(202, LogLevel.Critical, "The store does not take the {Kind} {Id}")]
    private partial void LogRefused(Exception fault, string kind, Guid id);
}
