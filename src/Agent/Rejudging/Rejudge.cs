using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Weighing;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Rejudging;

/// <summary>Judges one stored weighing by today's rules, from its evidence and the record as it was.</summary>
/// <param name="decisions">Over a ledger that holds what was known before the weighing.</param>
/// <param name="evidenceOf">Reads the evidence of a row.</param>
/// <param name="newId">Makes an id for a new row.</param>
internal sealed class Rejudge(DecisionMaker decisions, Func<Guid, Evidence?> evidenceOf, Func<Guid> newId)
{
    /// <summary>What another rule of weighing, or another record, may see otherwise; the rest (no code, no tare, a lost link...) no rule mends.</summary>
    private static readonly HashSet<string> OpenReasons = new(StringComparer.Ordinal)
    {
        Reasons.Unsettled, Reasons.HandContact, Reasons.AfterFeed, Reasons.AlreadyWeighed, Reasons.Implausible,
    };

    public static bool CanBeJudged(StoredWeighing stored) =>
        stored is { State: WeighingState.Stands, Row: { Chick: not null, At: not null, Origin: not Origin.Imported } } && stored.Row.Reasons.All(OpenReasons.Contains);

    /// <param name="row">The row that stands.</param>
    /// <param name="first">The row that the decision of the day made; later ones took its place.</param>
    public Finding Judge(WeighingRow row, WeighingRow first)
    {
        RecordedPlacing recorded;
        try
        {
            if (evidenceOf(row.Id) is not { } evidence)
                return new Finding(FindingKind.NoEvidence, row, Why: "no readings are stored");
            recorded = EvidenceReader.Read(evidence);
        }
        catch (EvidenceException failure)
        {
            return new Finding(FindingKind.Unreadable, row, Why: failure.Message);
        }

        var run = EvidenceRun.Of(recorded, StationCore.NewSettler());
        var attempt = new Attempt(row.Device ?? "", row.Chick, row.At!.Value, recorded.Placing);
        var now = run.State == SettleState.Settled ? Settled(row, first, attempt, run.Weight) : Unsettled(row, attempt, run);
        if (now is null)
            return new Finding(FindingKind.Undecided, row, Why: $"the readings end with the decision of that day; today's rule would have waited longer ({Waits(run.State)})");
        return IsSame(row, now)
            ? new Finding(FindingKind.Same, row)
            : new Finding(FindingKind.Changes, row, now with { Id = newId(), Origin = Origin.Rejudged, Replaces = row.Id, Written = null });
    }

    private WeighingRow Settled(WeighingRow row, WeighingRow first, Attempt attempt, in Measured weight)
    {
        var (grams, uncertainty, judged) = decisions.Judge(attempt, weight, mayReplace: first.Replaces is not null || attempt.Placing.AskedAgain);
        var measured = row with { Milligrams = Milligrams(grams), UncertaintyMilligrams = Milligrams(uncertainty) };
        // An adopted weight stands by the register's word: only what it weighs can be judged.
        return first.Origin == Origin.Adopted
            ? measured
            : measured with
            {
                Verdict = judged.Reasons.Count == 0 ? Verdict.Accepted : Verdict.Rejected,
                Reasons = judged.Reasons,
                Remedy = judged.Remedy,
                AgeDays = judged.AgeDays,
            };
    }

    /// <returns>Null where the readings end with a decision that today's rule would not have made yet.</returns>
    private WeighingRow? Unsettled(WeighingRow row, Attempt attempt, in RunResult run)
    {
        var refused = row.Reasons.Contains(Reasons.Unsettled) || row.Reasons.Contains(Reasons.HandContact);
        if (!refused)
            return null;
        var lifted = attempt.Placing.JudgedSeconds is not null;
        var reason = lifted && run.State == SettleState.Contact && !run.Stepped ? Reasons.HandContact : Reasons.Unsettled;
        var (grams, uncertainty) = decisions.BestValue(attempt, run.Weight);
        return row with { Milligrams = Milligrams(grams), UncertaintyMilligrams = Milligrams(uncertainty), Reasons = [reason], Remedy = Reasons.RemedyFor(reason) };
    }

    private static bool IsSame(WeighingRow was, WeighingRow now) =>
        was.Verdict == now.Verdict && was.Milligrams == now.Milligrams;

    private static string Waits(SettleState state) => state == SettleState.Contact ? "until a hand can be excluded" : "until the weight has settled";

    private static long? Milligrams(decimal? grams) => grams is { } value ? (long)decimal.Round(value * 1000m) : null;
}
