using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Feeding.Batches;
using CaptureAgent.Agent.Feeding.ProbeChecks;
using CaptureAgent.Agent.Instruments;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Agent.Weighing;
using CaptureAgent.Protocol.Codes;

namespace CaptureAgent.Agent.Round;

/// <summary>The whole core behind one door: records in, in time order; events out. No I/O, no clock.</summary>
/// <remarks>Live and in a replay the same records give the same events.</remarks>
internal sealed class StationCore : IRound
{
    /// <summary>An advertisement may tell a value that still changes: what is neither repeated nor replaced for this long is finished (common practice, no source).</summary>
    private static readonly TimeSpan AdvertisedValueStands = TimeSpan.FromSeconds(3);

    private readonly Dictionary<string, Instrument> instruments = new(StringComparer.Ordinal);
    private readonly List<IScaleRound> rounds = [];
    private readonly Scanning scanning;
    private readonly DecisionMaker decisions;
    private readonly BatchBook batches;
    private readonly List<BatchWatch> watches = [];
    private readonly ProbeCards probes;

    /// <param name="newSettler">By what loads are weighed; null: <see cref="NewSettler"/>.</param>
    public StationCore(StationOptions options, Ledger ledger, Func<ISettler>? newSettler = null)
    {
        var identity = new Identity();
        var cards = new Cards(options.Codes.Cards);
        var rules = DecisionRules.Of(options);
        var ids = new DecisionIds(options.Station);
        batches = new BatchBook(options, rules.Days, ids, ledger);
        var guided = new GuidedCheck(options.Feeding.Batch);
        probes = new ProbeCards(batches, watches, guided);
        decisions = new DecisionMaker(rules, ids, batches, cards, ledger);
        scanning = new Scanning(Rules(options.Codes), identity, cards, decisions, probes, rounds, options.FeedFollowsWeighing);
        var context = new RoundContext(identity, cards, decisions);
        foreach (var device in options.Devices)
        {
            IScaleRound? round = null;
            if (device.Role == "scale")
                rounds.Add(round = RoundAt(device, context, ledger.Motions.StillDeviationOf(device.Id), newSettler ?? NewSettler));
            BatchWatch? watch = null;
            if (device.Role == "probe")
                watches.Add(watch = new BatchWatch(device.Id, batches, guided));
            instruments.Add(device.Id, Instrument.Create(device, round, scanning, watch));
        }
    }

    /// <summary>The next moment at which something happens by itself (a code expires, a device falls silent); null if nothing is due.</summary>
    public DateTimeOffset? NextDeadline
    {
        get
        {
            var due = Deadline.Earliest(scanning.Due, decisions.Dues.Due, batches.Due, probes.Due);
            foreach (var watch in watches)
                due = Deadline.Earliest(due, watch.Due);
            foreach (var round in rounds)
                due = Deadline.Earliest(due, round.Due);
            foreach (var instrument in instruments.Values)
                due = Deadline.Earliest(due, instrument.Due);
            return due;
        }
    }

    /// <summary>Fires what is due before the record, then takes the record.</summary>
    /// <exception cref="KeyNotFoundException">The record names no device of the station.</exception>
    public void Accept(TraceRecord record, List<StationEvent> events)
    {
        decisions.Dues.Begin(record.At);
        while (NextDeadline is { } due && due < record.At)
            FireAt(due, events);
        instruments[record.Device].Accept(record, events);
    }

    /// <summary>Fires every deadline up to and including <paramref name="now"/>, each with its own moment.</summary>
    public void Expire(DateTimeOffset now, List<StationEvent> events)
    {
        decisions.Dues.Begin(now);
        while (NextDeadline is { } due && due <= now)
            FireAt(due, events);
    }

    /// <summary>The register or the record was changed by another process.</summary>
    public void Reload(Ledger ledger) => decisions.Reload(ledger);

    /// <summary>The rule by which loads are weighed today.</summary>
    public static ISettler NewSettler() => new PlateauSettler();

    private static IScaleRound RoundAt(DeviceOptions device, RoundContext context, double stillDeviation, Func<ISettler> newSettler)
    {
        if (Streams.IsFinished(device))
            return new FinishedRound(device.Id, context, MassOf(device), device.Dialect == "bthome" ? AdvertisedValueStands : TimeSpan.Zero);
        var pan = new Pan(newSettler);
        pan.ExpectNoise(stillDeviation);
        return new Round(device.Id, pan, context, MassOf(device));
    }

    private static CheckMass? MassOf(DeviceOptions device) =>
        device.CheckMassGrams is { } grams ? new CheckMass(grams, device.CheckToleranceGrams) : null;

    private void FireAt(DateTimeOffset due, List<StationEvent> events)
    {
        scanning.Fire(due, events);
        decisions.Dues.Fire(due, events);
        foreach (var round in rounds)
            round.Fire(due, events);
        foreach (var watch in watches)
            watch.Fire(due, events);
        batches.Fire(due, events);
        probes.Fire(due, events);
        foreach (var instrument in instruments.Values)
            instrument.Fire(due, events);
    }

    /// <summary>Which codes the station takes.</summary>
    internal static CodeRules Rules(CodeOptions codes) =>
        CheckSchemes.TryParse(codes.Check, out var scheme) && CodeRules.TryCompile(codes.Pattern, scheme, out var rules, out _)
            ? rules
            : throw new InvalidOperationException("The codes were not checked at start.");
}
