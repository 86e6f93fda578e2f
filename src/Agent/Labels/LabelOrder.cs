using System.Text;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Round;
using CaptureAgent.Protocol.Codes;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Labels;

/// <summary>What is to be printed, asked for on the command line or on the page.</summary>
/// <param name="Chicks">Codes of the register; those that have left too.</param>
/// <param name="All">All chicks that are here.</param>
/// <param name="Brooders">Those in which a chick that is here lives.</param>
/// <param name="Cards">The command cards.</param>
/// <param name="Sheet">Null: the station's.</param>
/// <param name="Symbol">Null: the station's.</param>
/// <param name="Skip">Labels that are gone from the first sheet.</param>
internal sealed record LabelOrder(IReadOnlyList<string> Chicks, bool All, bool Brooders, bool Cards, string? Sheet, string? Symbol, int Skip, string Language)
{
    public bool NeedsRegister => Chicks.Count > 0 || All || Brooders;

    /// <param name="register">Empty where <see cref="NeedsRegister"/> is false.</param>
    /// <exception cref="LabelException">It cannot be printed as asked for.</exception>
    public PrintedLabels Print(StationOptions station, IReadOnlyList<Chick> register, DateOnly today, DateTimeOffset now)
    {
        var texts = LabelTexts.In(Language);
        var labels = NeedsRegister ? OfRegister(texts, register, today) : [];
        if (Cards)
            labels.AddRange(texts.Cards(station.Codes.Cards));
        if (labels.Count == 0)
            throw new LabelException("There is nothing to print: ask for chicks, brooders or cards, and register the chicks first.");
        var sheets = LabelRules.All(station.Labels).ToList();
        var name = Sheet ?? station.Labels.Sheet;
        var sheet = sheets.Find(each => each.Name == name)
            ?? throw new LabelException($"There is no label sheet '{name}'. Allowed: {string.Join(", ", sheets.Select(each => each.Name))}; labels.sheets in station.json adds others.");
        if (Skip < 0 || Skip >= sheet.LabelsAPage)
            throw new LabelException($"{Skip} labels cannot be skipped: sheet {sheet.Name} has {sheet.LabelsAPage}; allowed: 0 to {sheet.LabelsAPage - 1}.");
        RefuseUnreadable(labels, station.Codes);
        var pdf = new LabelPdf(sheet, Symbol ?? station.Labels.Symbol);
        return new(pdf.Draw(labels, Skip, now), labels.Count, sheet.Name, pdf.WithoutBars);
    }

    private List<Label> OfRegister(LabelTexts texts, IReadOnlyList<Chick> register, DateOnly today)
    {
        if (Chicks.FirstOrDefault(code => !register.Any(chick => chick.Code == code)) is { } unknown)
            throw new LabelException($"The register has no chick '{unknown}'.");
        var here = register.Where(chick => chick.Left is not { } left || left > today).ToList();
        var wanted = (All ? here : []).Union(register.Where(chick => Chicks.Contains(chick.Code, StringComparer.Ordinal)));
        return
        [
            .. wanted.Select(texts.Of),
            .. Brooders ? here.Select(chick => chick.Brooder).OfType<string>().Distinct().Order(StringComparer.Ordinal).Select(texts.OfBrooder) : [],
        ];
    }

    // A card that this very station would not take must not be printed.
    private static void RefuseUnreadable(List<Label> labels, CodeOptions codes)
    {
        var rules = StationCore.Rules(codes);
        var faults = new StringBuilder();
        foreach (var label in labels)
        {
            if (!Ascii.IsValid(label.Code) || label.Code.Any(char.IsControl))
                faults.Append($"\n  {label.Code}: a scanner types plain letters, digits and signs only");
            else if (label.Heading == label.Code && rules.Classify(label.Code) is CodeKind.BadCheck)
                faults.Append($"\n  {label.Code}: its check character is wrong (codes.check is {codes.Check})");
            else if (label.Heading == label.Code && rules.Classify(label.Code) is not CodeKind.Chick)
                faults.Append($"\n  {label.Code}: does not match codes.pattern {codes.Pattern}");
        }

        if (faults.Length > 0)
            throw new LabelException($"This station would not read these codes; mend the register or codes in station.json:{faults}");
    }
}

/// <param name="WithoutBars">Codes that are too long for bars on this sheet.</param>
internal sealed record PrintedLabels(byte[] Pdf, int Count, string Sheet, IReadOnlyList<string> WithoutBars);
