using CaptureAgent.Agent.Events;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Recording;

/// <summary>Turns decisions into rows of the store.</summary>
/// <param name="station">The station's name.</param>
/// <param name="zone">The station's time zone, IANA name.</param>
internal sealed class DecisionRows(string station, string zone)
{
    private const decimal MilligramsPerGram = 1000m;

    public void Store(DecisionEvent decision, IDecisionStore store)
    {
        switch (decision)
        {
            case WeighingEvent weighing:
                store.Add(Row(weighing), weighing.Evidence);
                break;
            case FeedEvent feed:
                store.Add(Row(feed));
                break;
            case IntakeEvent intake:
                store.Add(Row(intake));
                break;
            case CropEvent crop:
                store.Add(Row(crop));
                break;
            case ChoreEvent chore:
                store.Add(Row(chore));
                break;
            case UndoEvent undo:
                store.Add(Row(undo));
                break;
            case ObservationEvent observation:
                store.Add(Row(observation));
                break;
            case CheckEvent check:
                store.Add(Row(check));
                break;
            case TareAfterEvent tare:
                store.Add(Row(tare));
                break;
            case BatchEvent batch:
                store.Add(Row(batch));
                break;
            case ProbeCheckEvent check:
                store.Add(Row(check));
                break;
            case ProbeLagEvent lag:
                store.Add(Row(lag));
                break;
            default:
                throw new ArgumentException($"{decision.GetType().Name} has no row in the store.", nameof(decision));
        }
    }

    public WeighingRow Row(WeighingEvent weighing) => new(
        weighing.Id, weighing.Chick, weighing.At, zone, weighing.Day,
        Milligrams(weighing.Grams), Milligrams(weighing.UncertaintyGrams), Milligrams(weighing.TareGrams),
        weighing.Verdict == "accepted" ? Verdict.Accepted : Verdict.Rejected, weighing.Reasons, weighing.Remedy, weighing.AgeDays,
        Origin.Captured, station, weighing.Device, weighing.Replaces);

    public FeedRow Row(FeedEvent feed) => new(feed.Id, feed.Chick, feed.At, zone, feed.Day, feed.Batch, feed.BatchState, station, feed.Way);

    public IntakeRow Row(IntakeEvent intake) => new(
        intake.Id, intake.FeedId, intake.BeforeId, intake.AfterId, intake.At, zone, station, Exactly(intake.Grams), Exactly(intake.UncertaintyGrams));

    public CropMarkRow Row(CropEvent crop) => new(crop.Id, crop.Chick, crop.At, zone, crop.Day, station);

    public ChoreRow Row(ChoreEvent chore) => new(chore.Id, chore.Chore, chore.At, zone, station);

    public UndoRow Row(UndoEvent undo) => new(undo.Id, undo.At, zone, undo.UndoneId, station);

    public ObservationRow Row(ObservationEvent seen) => new(seen.Id, seen.Chick, seen.At, zone, seen.Day, seen.Observation, station);

    public ScaleCheckRow Row(CheckEvent check) => new(
        check.Id, check.At, zone, station, check.Device,
        Exactly(check.Grams), Exactly(check.UncertaintyGrams), Exactly(check.ExpectedGrams), Math.Max(1, Exactly(check.ToleranceGrams)));

    public TareAfterRow Row(TareAfterEvent tare) => new(
        tare.Id, tare.WeighingId, tare.At, zone, station, tare.Device,
        Exactly(tare.TareGrams), Exactly(tare.AfterGrams), Exactly(tare.UncertaintyGrams), tare.Slip, Milligrams(tare.DriftFreeGrams));

    public BatchRow Row(BatchEvent batch) => new(
        batch.Id, batch.Batch, batch.Day, batch.At, zone, station, batch.Device, batch.State, batch.MixedAt, batch.DiscardAt ?? batch.MixedAt,
        Exactly(batch.Celsius), batch.BelowBandAt, batch.ProbeChecked,
        batch.ConstantSeconds is { } seconds ? (int)Math.Round(seconds * 1000) : null);

    public ProbeCheckRow Row(ProbeCheckEvent check) => new(
        check.Id, check.At, zone, station, check.Device, check.Kind,
        (int)Exactly(check.Celsius), (int)Exactly(check.ExpectedCelsius), (int)Exactly(check.ToleranceCelsius));

    public ProbeLagRow Row(ProbeLagEvent lag) => new(
        lag.Id, lag.At, zone, station, lag.Device, Math.Max(1, (int)Math.Round(lag.ConstantSeconds * 1000)), lag.Lags);

    private static int? Exactly(decimal? celsius) => celsius is { } value ? (int)Exactly(value) : null;

    private static long? Milligrams(decimal? grams) =>
        grams is { } value ? Exactly(value) : null;

    private static long Exactly(decimal grams) => (long)decimal.Round(grams * MilligramsPerGram, MidpointRounding.ToEven);
}
