using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
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

    public StationCore(StationOptions options, Ledger ledger)
    {
        var identity = new Identity();
        var cards = new Cards(options.Codes.Cards);
        decisions = new DecisionMaker(DecisionRules.Of(options), cards, ledger);
        scanning = new Scanning(Rules(options.Codes), identity, cards, decisions, rounds, options.FeedFollowsWeighing);
        var context = new RoundContext(identity, cards, decisions);
        foreach (var device in options.Devices)
        {
            IScaleRound? round = null;
            if (device.Role == "scale")
                rounds.Add(round = RoundAt(device, context));
            instruments.Add(device.Id, Instrument.Create(device, round, scanning));
        }
    }

    /// <summary>The next moment at which something happens by itself (a code expires, a device falls silent); null if nothing is due.</summary>
    public DateTimeOffset? NextDeadline
    {
        get
        {
            var due = Deadline.Earliest(scanning.Due, decisions.Dues.Due);
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

    private static IScaleRound RoundAt(DeviceOptions device, RoundContext context) => Streams.IsFinished(device)
        ? new FinishedRound(device.Id, context, MassOf(device), device.Dialect == "bthome" ? AdvertisedValueStands : TimeSpan.Zero)
        : new Round(device.Id, new Pan(NewSettler), context, MassOf(device));

    private static CheckMass? MassOf(DeviceOptions device) =>
        device.CheckMassGrams is { } grams ? new CheckMass(grams, device.CheckToleranceGrams) : null;

    private void FireAt(DateTimeOffset due, List<StationEvent> events)
    {
        scanning.Fire(due, events);
        decisions.Dues.Fire(due, events);
        foreach (var round in rounds)
            round.Fire(due, events);
        foreach (var instrument in instruments.Values)
            instrument.Fire(due, events);
    }

    /// <summary>Which codes the station takes.</summary>
    internal static CodeRules Rules(CodeOptions codes) =>
        CheckSchemes.TryParse(codes.Check, out var scheme) && CodeRules.TryCompile(codes.Pattern, scheme, out var rules, out _)
            ? rules
            : throw new InvalidOperationException("The codes were not checked at start.");
}
