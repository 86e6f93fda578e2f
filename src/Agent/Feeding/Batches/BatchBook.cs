using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Feeding.ProbeChecks;
using CaptureAgent.Agent.Round;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Feeding.Batches;

/// <summary>The batches of the day: their numbers, their clocks, which one is fed from, and what is told of them.</summary>
internal sealed class BatchBook
{
    /// <summary>The forecast is told again when it has moved by more than this, and not more often.</summary>
    private static readonly TimeSpan ForecastMoves = TimeSpan.FromSeconds(15);

    private readonly BatchOptions options;
    private readonly NurseryDay days;
    private readonly DecisionIds ids;
    private readonly BatchTexts texts;
    private readonly FeedingPace pace = new();
    private readonly List<Batch> batches = [];
    private readonly Dictionary<string, ProbeCorrection> corrections;
    private readonly ILookup<string, ProbeLagRow> lags;

    public BatchBook(StationOptions station, NurseryDay days, DecisionIds ids, Ledger ledger)
    {
        (options, this.days, this.ids) = (station.Feeding.Batch, days, ids);
        texts = new BatchTexts(options.Show == "F");
        corrections = station.Devices.Where(device => device.Role == "probe").ToDictionary(
            device => device.Id, device => new ProbeCorrection(device, options.ProbeCheckDays, ledger.ProbeChecks), StringComparer.Ordinal);
        lags = ledger.ProbeLags.ToLookup(row => row.Device, StringComparer.Ordinal);
        foreach (var rows in ledger.Batches.GroupBy(row => (row.Day, row.Number)))
            batches.Add(Batch.Resume([.. rows], options, ledger.ReadAt));
        if (batches is [.., { Device: null, Expired: false } begun])
            Pending = begun;
    }

    /// <summary>The first state of a batch that a card began: a probe begins one by what it measures.</summary>
    public static bool IsByCard(BatchRow first) => first.State == BatchStates.Unmeasured;

    /// <summary>What earlier dips of a probe have shown of its lag, oldest first.</summary>
    public IEnumerable<string> LagsOf(string device) => lags[device].Select(row => row.Lags);

    public BatchOptions Options => options;

    /// <summary>Begun by the card, and no probe has been put into it yet.</summary>
    public Batch? Pending { get; private set; }

    public DateTimeOffset? Due
    {
        get
        {
            DateTimeOffset? due = null;
            foreach (var batch in batches)
                due = Deadline.Earliest(due, batch.ResumedAt, batch.WarnAt, batch.ExpiresAt);
            return due;
        }
    }

    public ProbeCorrection CorrectionOf(string device) => corrections[device];

    /// <summary>The newest batch that a probe measures (or measured before a restart); null: none of this nursery day or of the last two hours.</summary>
    public Batch? NewestOf(string device, DateTimeOffset at) => batches.FindLast(batch => batch.Device == device && IsCurrent(batch, at));

    /// <param name="device">The probe that is in it; null: not known yet.</param>
    public Batch Begin(DateTimeOffset at, DateTimeOffset mixedAt, string? device)
    {
        var day = days.Of(at);
        var number = 1 + batches.Where(batch => batch.Day == day).Select(batch => batch.Number).DefaultIfEmpty(0).Max();
        var begun = new Batch(number, day, mixedAt, options);
        batches.RemoveAll(batch => !IsCurrent(batch, at));
        begun.Instead = [.. batches.Where(batch => (device is not null && batch.Device == device) || batch == Pending)];
        foreach (var before in begun.Instead)
            before.Instead = [.. before.Instead.Where(older => IsCurrent(older, at))];
        batches.RemoveAll(begun.Instead.Contains);
        batches.Add(begun);
        Pending = device is null ? begun : null;
        begun.Device = device;
        return begun;
    }

    /// <summary>A probe was put into the batch that the card began.</summary>
    public Batch? TakePending(string device)
    {
        if (Pending is not { } batch)
            return null;
        batch.Instead = [.. batch.Instead, .. batches.Where(other => other.Device == device)];
        batches.RemoveAll(batch.Instead.Contains);
        Pending = null;
        batch.Device = device;
        return batch;
    }

    /// <summary>The card that began it was a mistake: those whose place it took go on, with their own clocks.</summary>
    /// <param name="id">Of its first state.</param>
    public void TakeBack(Guid id, DateTimeOffset at, List<StationEvent> events)
    {
        if (batches.Find(batch => batch.Id == id) is not { } begun)
            return;
        begun.IsTakenBack = true;
        batches.Remove(begun);
        if (Pending == begun)
            Pending = begun.Instead.LastOrDefault(batch => batch.Device is null);
        batches.AddRange(begun.Instead);
        batches.Sort((one, other) => (one.Day, one.Number).CompareTo((other.Day, other.Number)));
        begun.Instead = [.. batches.Where(batch => batch.Device == begun.Device && IsCurrent(batch, at))];
        if (begun.Instead is not [.., var before])
            return;

        // Until the next reading nobody knows how it is; it may have been taken for the other one.
        before.Expired = before.DiscardAt <= at;
        before.State = before.Expired ? BatchStates.Discard : BatchStates.Unmeasured;
        before.Celsius = null;
        before.InRangeSince = null;
        Tell(before, at, true, default, events);
    }

    /// <summary>The batch that chicks are fed from: the newest that may be fed from, else the newest; null if there is none.</summary>
    public Batch? InUse(DateTimeOffset at) =>
        batches.FindLast(batch => batch.State == BatchStates.InRange && IsCurrent(batch, at)) ?? batches.FindLast(batch => IsCurrent(batch, at));

    /// <summary>A chick was fed: says so if it was not from a batch in range.</summary>
    public void Fed(string chick, DateTimeOffset at, List<StationEvent> events)
    {
        pace.Fed(at, days.Of(at));
        var batch = InUse(at);
        if (batch is null && corrections.Count > 0)
            events.Add(new AlertEvent(at, "batch-unmeasured", chick, null, $"{chick} was fed, and nobody has measured what from. Put the probe into the batch before the next chick."));
        else if (batch is { State: not BatchStates.InRange })
            events.Add(new AlertEvent(at, $"batch-{batch.State}", chick, batch.Device, texts.Fed(chick, batch.Number, batch.State, batch.Celsius)));
        else if (batch is not null && batches.Find(other => other.State == BatchStates.Stop) is { } hot)
            events.Add(new AlertEvent(at, "batch-stop", chick, hot.Device, $"{texts.Hot(hot.Number, hot.Celsius)} {chick} is written down as fed from batch {batch.Number}; if it was from batch {hot.Number}, see to it now."));
    }

    /// <summary>Fires what is due at exactly this moment.</summary>
    public void Fire(DateTimeOffset at, List<StationEvent> events)
    {
        foreach (var batch in batches)
        {
            if (batch.ResumedAt <= at)
            {
                batch.ResumedAt = null;
                Tell(batch, at, true, default, events);
            }

            if (batch.WarnAt <= at)
            {
                batch.Warned = true;
                events.Add(new AlertEvent(at, "batch-discard-soon", null, batch.Device, BatchTexts.SoonDiscard(batch.Number, batch.DiscardAt - at)));
            }

            if (batch.ExpiresAt > at || batch.Expired)
                continue;
            batch.Expired = true;
            Set(batch, batch.State == BatchStates.Stop ? BatchStates.Stop : BatchStates.Discard, at, events);
        }
    }

    /// <summary>Gives the batch its state, and tells what has changed.</summary>
    public void Set(Batch batch, string state, DateTimeOffset at, List<StationEvent> events)
    {
        var changed = state != batch.State || batch.Told is null;
        batch.State = state;
        if (state != BatchStates.InRange)
            batch.InRangeSince = null;
        else if (changed)
            batch.InRangeSince = at;
        var (below, soonest, latest) = BelowBand(batch, at);
        var moved = batch.Told is not { } told
            || (at - told.At >= ForecastMoves && (told.Below is null != below is null || (told.Below - below)?.Duration() > ForecastMoves));
        if (!changed && !(moved && BatchStates.HasForecast(state)))
            return;
        Tell(batch, at, changed, (below, soonest, latest), events);
        if (changed && state == BatchStates.Stop)
            events.Add(new AlertEvent(at, "batch-stop", null, batch.Device, texts.Hot(batch.Number, batch.Celsius)));
    }

    /// <summary>A batch that was just begun.</summary>
    public void TellBegun(Batch batch, DateTimeOffset at, List<StationEvent> events) => Tell(batch, at, true, default, events);

    public Guid NextId(string kind, DateTimeOffset at) => ids.Next(kind, at);

    private bool IsCurrent(Batch batch, DateTimeOffset at) => batch.Day == days.Of(at) || at - batch.MixedAt <= Batch.Longest;

    private void Tell(Batch batch, DateTimeOffset at, bool changed, (DateTimeOffset? Below, DateTimeOffset? Soonest, DateTimeOffset? Latest) cooling, List<StationEvent> events)
    {
        batch.Told = (at, cooling.Below);
        var id = changed ? ids.Next("batch", at) : default;
        if (changed && batch.Id == default)
            batch.Id = id;
        batch.ResumedAt = null;
        var correction = batch.Device is { } device ? corrections.GetValueOrDefault(device) : null;
        var end = cooling.Below < batch.DiscardAt ? cooling.Below : batch.DiscardAt;
        events.Add(new BatchEvent(at, batch.Number, batch.State, batch.Celsius is { } celsius ? Math.Round((decimal)celsius, 2) : null, batch.DiscardAt, cooling.Below)
        {
            Id = id,
            Device = batch.Device,
            Day = batch.Day,
            MixedAt = batch.MixedAt,
            InRangeSince = batch.InRangeSince,
            BelowBandSoonest = cooling.Soonest,
            BelowBandLatest = cooling.Latest,
            ChicksInTime = BatchStates.HasForecast(batch.State) && end > at ? pace.ChicksIn(end.Value - at) : null,
            ProbeChecked = correction?.IsChecked(at) ?? false,
            ProbeCheckedAt = correction?.Last?.At,
            ConstantSeconds = batch.ConstantSeconds,
            StateChanged = changed,
        });
    }

    private (DateTimeOffset? Below, DateTimeOffset? Soonest, DateTimeOffset? Latest) BelowBand(Batch batch, DateTimeOffset at)
    {
        if (!BatchStates.HasForecast(batch.State) || batch.Cooling?.Reaches((double)options.LowCelsius, at.Seconds()) is not { } cooling)
            return default;
        return (After(at, cooling.Seconds), After(at, cooling.Soonest), After(at, cooling.Latest));
    }

    private static DateTimeOffset? After(DateTimeOffset at, double seconds) =>
        seconds < TimeSpan.FromDays(1).TotalSeconds ? at + TimeSpan.FromMilliseconds(Math.Round(seconds * 1000)) : null;
}
