using CaptureAgent.Agent.Page.Serving;
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
        CheckEmptyingGap(options.Feeding.EmptyingGap, book);
        DeviceRules.Check(options.Devices, devicesAreOpened, framesAreProven, book);
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
    ];

    private static void CheckEmptyingGap(IList<EmptyingStep> steps, RuleBook book)
    {
        var day = -1;
        for (var i = 0; i < steps.Count; i++)
        {
            var path = $"feeding.emptyingGap[{i}]";
            if (steps[i].Hours is not (> 0 and <= 24))
                book.Add($"{path}.hours", RuleBook.Text((decimal)Math.Clamp(steps[i].Hours, -1e9, 1e9)), "allowed: more than 0, up to 24 hours.");
            if (i == steps.Count - 1)
            {
                if (steps[i].ThroughDay is { } last)
                    book.Add($"{path}.throughDay", RuleBook.Text(last), "the last step has no throughDay: it holds for every later day.");
            }
            else if (steps[i].ThroughDay is not { } through)
            {
                book.Add($"{path}.throughDay", null, "missing: only the last step may leave it out.");
            }
            else if (through <= day)
            {
                book.Add($"{path}.throughDay", RuleBook.Text(through), $"must be 0 or more and later than the step before; allowed: {day + 1} or more.");
            }
            else
            {
                day = through;
            }
        }
    }
}
