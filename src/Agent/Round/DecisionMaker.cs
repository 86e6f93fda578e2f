using System.Diagnostics.CodeAnalysis;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Feeding;
using CaptureAgent.Agent.Feeding.Batches;
using CaptureAgent.Agent.Thriving;
using CaptureAgent.Agent.Weighing;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Round;

/// <summary>A placing that is to be decided, and the code that names it.</summary>
/// <param name="Note">Goes in front of the remedy.</param>
internal sealed record Attempt(string Device, string? Code, DateTimeOffset At, Placing Placing, string Note = "");

/// <summary>Best value of a load, in grams (NaN if there is none), with what its uncertainty is made of.</summary>
internal readonly record struct Measured(double Grams, double StandardError, Rest? Tare, double Division)
{
    /// <summary>Of <see cref="StandardError"/>, what rounding makes, in grams.</summary>
    public double Rounding { get; init; }

    /// <summary>What the zero may have moved since the tare: one standard uncertainty in grams.</summary>
    public double Drift { get; init; }

    /// <summary>How the load moved; null where it had not settled.</summary>
    public Motion? Motion { get; init; }
}

/// <summary>Turns measured loads and scanned cards into decisions, and keeps the ledger in step with them.</summary>
internal sealed partial class DecisionMaker
{
    private readonly DecisionRules rules;
    private readonly DecisionIds ids;
    private readonly BatchBook batches;
    private readonly Cards cards;
    private Ledger ledger;
    private Judgement judgement;
    private MorningWatch morning;

    public DecisionMaker(DecisionRules rules, DecisionIds ids, BatchBook batches, Cards cards, Ledger ledger)
    {
        (this.rules, this.ids, this.batches, this.cards) = (rules, ids, batches, cards);
        Dues = new FeedDues(rules.Plan, rules.Days);
        Reload(ledger);
    }

    /// <summary>The feeds that are waited for.</summary>
    public FeedDues Dues { get; }

    public bool? FitsHistory(string code, double grams, DateTimeOffset at) => judgement.FitsHistory(code, grams, at);

    /// <summary>Codes of the chicks of the register with this transponder, on the nursery day of the moment.</summary>
    public IReadOnlyList<string> ChicksOfBand(string number, DateTimeOffset at) => ledger.OfBand(number, rules.Days.Of(at));

    /// <summary>Whether the chick can have this weight, by its own weights or else by its species and age; null where nothing is known of it.</summary>
    public bool? Fits(string code, double grams, DateTimeOffset at) => judgement.Fits(code, grams, at);

    /// <summary>What the chick should weigh, in grams, from its own weights; null if it has none.</summary>
    public double? Expected(string code, DateTimeOffset at) => judgement.Expected(code, at);

    /// <summary>It has been weighed often enough for its expected weight to be near: fewer weights tell no pace.</summary>
    public bool HasForecast(string code) => ledger.WeightsOf(code).Count >= 3;

    /// <summary>How the chick moved on the mornings before this day.</summary>
    public MotionHabit HabitOf(string code, DateTimeOffset at) => ledger.Motions.HabitOf(code, rules.Days.Of(at));

    /// <summary>The register or the record changed under us.</summary>
    [MemberNotNull(nameof(ledger), nameof(judgement), nameof(morning))]
    public void Reload(Ledger anew)
    {
        ledger = anew;
        judgement = new Judgement(anew, rules.Days, rules.Emptying, rules.ExpectedWeight);
        Dues.Reload(anew);
        morning = new MorningWatch(anew);
    }

    /// <summary>A settled weight: accepted, or rejected for what it would mean.</summary>
    public WeighingEvent Decide(Attempt attempt, in Measured weight, List<StationEvent> events)
    {
        var code = attempt.Code!;
        attempt.Placing.AskedAgain = cards.TakePermit(code, attempt.At);
        var (grams, uncertainty, judged) = Judge(attempt, weight, attempt.Placing.AskedAgain);
        var decided = Emit(attempt, weight, grams, uncertainty, judged, events);
        if (judged.Reasons.Count == 0)
        {
            ledger.Add(code, new Weight(decided.Id, decided.Day, attempt.At, grams, uncertainty));
            if (weight.Motion is { } motion)
                ledger.Motions.Add(code, new MovedMorning(decided.Id, decided.Day, motion.Force / weight.Grams, motion.Momentum / weight.Grams));
            foreach (var finding in morning.After(code, decided.Day))
                events.Add(Told(finding, attempt.At));
        }

        if (judged.Look is { } look)
            events.Add(new AlertEvent(attempt.At, "look", code, attempt.Device, look));
        if (judged.TooGood is { } tooGood)
            events.Add(new FindingEvent(attempt.At, code, FindingKinds.TooGood, Severities.Look, tooGood));
        if (ledger.Find(code) is not null && Reasons.IsSettled(judged.Reasons))
            CompareWithBefore(code, new Settled(decided.Id, attempt.At, grams, uncertainty), events);
        return decided;
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
    public WeighingEvent Refuse(Attempt attempt, in Measured weight, string reason, List<StationEvent> events)
    {
        var (grams, uncertainty) = BestValue(attempt, weight);
        var day = rules.Days.Of(attempt.At);
        var age = attempt.Code is { } code ? judgement.AgeDays(code, day) : null;
        var judged = Judgement.Reject(reason, age, attempt.Code is { } named && grams is { } best ? judgement.Gain(named, day, best) : null);
        return Emit(attempt, weight, grams, uncertainty, judged with { Remedy = attempt.Note + judged.Remedy }, events);
    }

    /// <summary>What a keeper saw; what cannot wait is answered.</summary>
    public void Observe(string code, string kind, DateTimeOffset at, List<StationEvent> events)
    {
        var day = rules.Days.Of(at);
        var seen = new ObservationEvent(at, code, kind) { Id = ids.Next("observation", at), Day = day };
        ledger.Add(new Note(seen.Id, Notes.Observation, code, kind, day, at));
        events.Add(seen);
        if (kind == ObservationKinds.Weaning)
        {
            morning = new MorningWatch(ledger);
            if (morning.IsWeaningDoubtful(code, day))
                events.Add(new AlertEvent(at, "weaning-early", code, null, $"{code} {Sentences.WeaningDoubt}"));
        }

        if (Sentences.Seen(code, day, kind, null) is { } urgent)
            events.Add(new AlertEvent(at, "observation-urgent", code, null, urgent.Text));
        if (ledger.Find(code) is null)
            events.Add(new AlertEvent(at, "unknown-chick", code, null, $"What was seen of {code} is written down, but the register has no such chick: add it, or check the code."));
    }

    private static FindingEvent Told(GrowthFinding finding, DateTimeOffset at) => new(
        at, finding.Chick, finding.Kind, finding.Severity, finding.Text,
        Grams(finding.Grams), Grams(finding.ExpectedGrams), Grams(finding.LowGrams), Grams(finding.HighGrams));

    private static decimal? Grams(double? grams) => grams is { } value ? Milligram.Nearest(value) : null;

    private WeighingEvent Emit(Attempt attempt, in Measured weight, decimal? grams, decimal? uncertainty, Judged judged, List<StationEvent> events)
    {
        var decided = new WeighingEvent(
            attempt.At, attempt.Code, grams, uncertainty, judged.Reasons.Count == 0 ? "accepted" : "rejected", judged.Reasons, judged.Remedy,
            weight.Tare is { } tare ? Milligram.Nearest(tare.Grams) : null, judged.AgeDays, attempt.Device)
        {
            Id = ids.Next("weighing", attempt.At),
            Day = rules.Days.Of(attempt.At),
            Fits = judged.Fits,
            Replaces = judged.Replaces,
            GainGrams = judged.GainGrams,
            Crop = judged.Crop,
            Confirms = judged.Confirms,
            Budget = grams is null || uncertainty is null ? null : Told(BudgetOf(attempt, weight)),
            Evidence = EvidenceText.Of(attempt.Placing, weight),
        };
        events.Add(decided);
        return decided;
    }

    private double UncertaintyOf(Attempt attempt, in Measured weight) => BudgetOf(attempt, weight).Combined;

    private UncertaintyBudget BudgetOf(Attempt attempt, in Measured weight) => new(
        Math.Sqrt(Math.Max(0, weight.StandardError * weight.StandardError - weight.Rounding * weight.Rounding)), weight.Rounding, weight.Tare?.Uncertainty ?? 0, weight.Drift,
        UncertaintyBudget.OfScale(rules.Accuracy.GetValueOrDefault(attempt.Device, Uncertainty.Accuracy(weight.Grams + (weight.Tare?.Grams ?? 0), weight.Division))));

    private static WeighingBudget Told(in UncertaintyBudget budget) => new(
        Milligram.Nearest(budget.Repeatability), Milligram.Nearest(budget.Quantisation), Milligram.Nearest(budget.Tare), Milligram.Nearest(budget.Drift), Milligram.Nearest(budget.Scale));
}
