using CaptureAgent.Agent.Page.Serving;
using CaptureAgent.Agent.Thriving;
using CaptureAgent.Protocol.Codes;

namespace CaptureAgent.Agent.Configuration;

/// <summary>What the values of station.json must be beyond their kind: ranges, names that exist, things that fit together.</summary>
internal static class StationRules
{
    private const int LongestStationName = 64;

    public static IReadOnlyList<ConfigurationFault> Check(StationOptions options, bool devicesAreOpened, bool framesAreProven = true)
    {
        var book = new RuleBook();
        CheckNames(options, book);
        CheckCodes(options.Codes, book);
        DeviceRules.Check(options.Devices, devicesAreOpened, framesAreProven, book);
        AnswerRules.Check(options.Answers, book);
        LabelRules.Check(options.Labels, book);
        FeedingRules.Check(options.Feeding, options.Hygiene, book);
        BatchOptionRules.Check(options.Feeding.Batch, book);
        return book.Faults;
    }

    private static void CheckNames(StationOptions options, RuleBook book)
    {
        if (string.IsNullOrWhiteSpace(options.Station) || options.Station.Length > LongestStationName || options.Station.Any(char.IsControl))
            book.Add("station", options.Station, $"must be a name of 1 to {LongestStationName} characters.");
        if (string.IsNullOrWhiteSpace(options.Store))
            book.Add("store", options.Store, "must be the path of a file.");
        CheckZone(options.TimeZone, book);
        CheckPage(options.Page, book);
    }

    private static void CheckPage(PageOptions page, RuleBook book)
    {
        if (ListenAddress.Fault(page.Listen) is { } fault)
            book.Add("page.listen", page.Listen, fault);
        if (page.CertificateKey is not null && page.Certificate is null)
            book.Add("page.certificateKey", page.CertificateKey, "a key needs its certificate: page.certificate is missing.");
        for (var i = 0; i < page.Hosts.Count; i++)
        {
            if (Uri.CheckHostName(page.Hosts[i]) == UriHostNameType.Unknown)
                book.Add($"page.hosts[{i}]", page.Hosts[i], "must be the name or the number of a host, without port or path, such as nursery.example.");
        }
    }

    private static void CheckZone(string zone, RuleBook book)
    {
        if (zone.Length > 0 && TimeZoneInfo.TryFindSystemTimeZoneById(zone, out _))
            return;

        var meant = NearestWord.Of(zone, TimeZoneInfo.GetSystemTimeZones().Select(known => known.Id));
        book.Add("timeZone", zone, "must be the IANA name of a time zone that this machine knows (package tzdata), such as Etc/UTC or Europe/Lisbon." + (meant is null ? "" : $" Did you mean '{meant}'?"));
    }

    private static void CheckCodes(CodeOptions codes, RuleBook book)
    {
        if (!CodeRules.TryCompile(codes.Pattern, CheckScheme.None, out _, out var fault))
            book.Add("codes.pattern", codes.Pattern, fault);
        book.OneOf("codes.check", codes.Check, CheckSchemes.Names);
        CheckObservations(codes.Cards.Observations, book);

        var seen = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var (path, card) in CardsOf(codes.Cards))
        {
            if (card.Length < 2 || card[0] != '!' || card.Any(letter => letter is <= ' ' or > '~'))
                book.Add(path, card, "a card's code starts with '!' and goes on with letters, digits or signs of plain ASCII, without blanks.");
            else if (!seen.TryAdd(card, path))
                book.Add(path, card, $"the same code as {seen[card]}; each card needs its own.");
        }
    }

    private static IEnumerable<(string Path, string Card)> CardsOf(CardOptions cards) =>
    [
        ("codes.cards.fed", cards.Fed),
        ("codes.cards.reweigh", cards.Reweigh),
        ("codes.cards.undo", cards.Undo),
        ("codes.cards.batch", cards.Batch),
        ("codes.cards.tare", cards.Tare),
        ("codes.cards.check", cards.Check),
        ("codes.cards.pair", cards.Pair),
        ("codes.cards.crop", cards.Crop),
        ("codes.cards.washed", cards.Washed),
        ("codes.cards.syringe", cards.Syringe),
        ("codes.cards.pan", cards.Pan),
        ("codes.cards.bowls", cards.Bowls),
        ("codes.cards.weaning", cards.Weaning),
        .. cards.Observations.Select((each, i) => ($"codes.cards.observations[{i}].card", each.Card)),
        ("codes.cards.ice", cards.Ice),
        ("codes.cards.boil", cards.Boil),
        ("codes.cards.reference", cards.Reference),
    ];

    private static void CheckObservations(IList<ObservationCard> cards, RuleBook book)
    {
        var kinds = ObservationKinds.All.Where(kind => kind != ObservationKinds.Weaning).ToList();
        for (var i = 0; i < cards.Count; i++)
            book.OneOf($"codes.cards.observations[{i}].kind", cards[i].Kind, kinds);
    }
}
