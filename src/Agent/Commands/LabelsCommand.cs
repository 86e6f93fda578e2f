using System.CommandLine;
using System.Text;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Labels;
using CaptureAgent.Agent.Round;
using CaptureAgent.Protocol.Codes;

namespace CaptureAgent.Agent.Commands;

/// <summary><c>labels</c>: cards for chicks and brooders, and the command cards, as a PDF to print.</summary>
internal static class LabelsCommand
{
    public static Command Create(Surroundings around)
    {
        var chicks = new Option<string[]>("--chicks") { HelpName = "CODE", Description = "Cards for these chicks.", AllowMultipleArgumentsPerToken = true };
        var all = new Option<bool>("--all") { Description = "Cards for all chicks that are here." };
        var brooders = new Option<bool>("--brooders") { Description = "Cards for the brooders of chicks that are here." };
        var cards = new Option<bool>("--cards") { Description = "The command cards of this station." };
        var sheet = new Option<string?>("--sheet") { HelpName = "NAME", Description = "Label sheet, columns x rows: 2x5, 2x7, 3x7, 3x8, 1x1, or one of labels.sheets in station.json." };
        var symbol = new Option<string?>("--symbol") { HelpName = "KIND", Description = "The square code: qr or data-matrix." };
        symbol.AcceptOnlyFromAmong([.. Symbols.Names]);
        var skip = new Option<int>("--skip") { HelpName = "N", Description = "So many labels are gone from the first sheet." };
        var output = new Option<string>("--output") { HelpName = "FILE", Description = "The PDF to write.", Required = true };
        var command = new Command("labels", """
            Writes cards as a PDF: a QR or Data Matrix code and a Code 128 of the same text, and the text in letters.
            Print them at 100 %, never "fit to page".

            Examples:
              capture-agent labels --all --brooders --output cards.pdf
              capture-agent labels --cards --sheet 3x8 --output commands.pdf
            """) { chicks, all, brooders, cards, sheet, symbol, skip, output };
        var arguments = new StationArguments(command);
        command.SetAction(async (parsed, _) =>
        {
            var station = arguments.Read(parsed, around);
            var options = station.Options;
            var labels = new List<Label>();
            var named = parsed.GetValue(chicks) ?? [];
            if (named.Length > 0 || parsed.GetValue(all) || parsed.GetValue(brooders))
                labels.AddRange(OfRegister(station, around, named, parsed.GetValue(all), parsed.GetValue(brooders)));
            if (parsed.GetValue(cards))
                labels.AddRange(LabelTexts.Cards(options.Codes.Cards));
            if (labels.Count == 0)
                throw new InputException("There is nothing to print: ask for --chicks CODE, --all, --brooders or --cards, and register the chicks first (`capture-agent import register FILE`).");
            var page = Sheet(options.Labels, parsed.GetValue(sheet) ?? options.Labels.Sheet);
            var skipped = parsed.GetValue(skip);
            if (skipped < 0 || skipped >= page.LabelsAPage)
                throw new InputException($"--skip {skipped}: sheet {page.Name} has {page.LabelsAPage} labels; allowed: 0 to {page.LabelsAPage - 1}.");
            RefuseUnreadable(labels, options.Codes);

            var pdf = new LabelPdf(page, parsed.GetValue(symbol) ?? options.Labels.Symbol);
            var path = around.FullPath(parsed.GetValue(output)!);
            OutputFile.Write(path, pdf.Draw(labels, skipped, around.Time.GetUtcNow()));
            await parsed.InvocationConfiguration.Output.WriteAsync($"{path}: {labels.Count} labels, sheet {page.Name}\n");
            if (pdf.WithoutBars.Count > 0)
                await around.Error.WriteLineAsync($"Too long for Code 128 on these labels, so with the square code alone: {string.Join(", ", pdf.WithoutBars)}.");
            return ExitCode.Done;
        });
        return command;
    }

    private static IEnumerable<Label> OfRegister(Station station, Surroundings around, string[] named, bool all, bool brooders)
    {
        using var store = station.OpenExistingStore(around.Time);
        foreach (var code in named)
            WeightsCommand.RefuseUnknown(store, code);
        var today = station.NurseryDay().Of(around.Time.GetUtcNow());
        var register = store.Chicks();
        var here = register.Where(chick => chick.Left is not { } left || left > today).ToList();
        var wanted = (all ? here : []).Union(register.Where(chick => named.Contains(chick.Code, StringComparer.Ordinal)));
        return
        [
            .. wanted.Select(LabelTexts.Of),
            .. brooders ? here.Select(chick => chick.Brooder).OfType<string>().Distinct().Order(StringComparer.Ordinal).Select(LabelTexts.OfBrooder) : [],
        ];
    }

    private static LabelSheet Sheet(LabelOptions labels, string name) => LabelRules.All(labels).FirstOrDefault(sheet => sheet.Name == name)
        ?? throw new InputException($"--sheet {name}: there is no such sheet. Allowed: {string.Join(", ", LabelRules.All(labels).Select(sheet => sheet.Name))}; labels.sheets in station.json adds others.");

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
            throw new InputException($"This station would not read these codes; mend the register or codes in station.json:{faults}");
    }
}
