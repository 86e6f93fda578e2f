using System.CommandLine;
using CaptureAgent.Agent.Answers.Voice;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Labels;
using CaptureAgent.Store;

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
        var language = new Option<string?>("--language") { HelpName = "CODE", Description = "Of what stands on the cards: en or es; the station's (answers.language) if it is left out." };
        language.AcceptOnlyFromAmong([.. SpokenTexts.Languages]);
        var skip = new Option<int>("--skip") { HelpName = "N", Description = "So many labels are gone from the first sheet." };
        var output = new Option<string>("--output") { HelpName = "FILE", Description = "The PDF to write.", Required = true };
        var command = new Command("labels", """
            Writes cards as a PDF: a QR or Data Matrix code and a Code 128 of the same text, and the text in letters.
            Print them at 100 %, never "fit to page".

            Examples:
              capture-agent labels --all --brooders --output cards.pdf
              capture-agent labels --cards --sheet 3x8 --output commands.pdf
            """) { chicks, all, brooders, cards, sheet, symbol, language, skip, output };
        var arguments = new StationArguments(command);
        command.SetAction(async (parsed, _) =>
        {
            var station = arguments.Read(parsed, around);
            var order = new LabelOrder(
                parsed.GetValue(chicks) ?? [], parsed.GetValue(all), parsed.GetValue(brooders), parsed.GetValue(cards), parsed.GetValue(sheet),
                parsed.GetValue(symbol), parsed.GetValue(skip), parsed.GetValue(language) ?? station.Options.Answers.Language);
            var now = around.Time.GetUtcNow();
            var printed = order.Print(station.Options, order.NeedsRegister ? Register(station, around, order.Chicks) : [], station.NurseryDay().Of(now), now);
            var path = around.FullPath(parsed.GetValue(output)!);
            OutputFile.Write(path, printed.Pdf);
            await parsed.InvocationConfiguration.Output.WriteAsync($"{path}: {printed.Count} labels, sheet {printed.Sheet}\n");
            if (printed.WithoutBars.Count > 0)
                await around.Error.WriteLineAsync($"Too long for Code 128 on these labels, so with the square code alone: {string.Join(", ", printed.WithoutBars)}.");
            return ExitCode.Done;
        });
        return command;
    }

    private static IReadOnlyList<Chick> Register(Station station, Surroundings around, IReadOnlyList<string> named)
    {
        using var store = station.OpenExistingStore(around.Time);
        foreach (var code in named)
            WeightsCommand.RefuseUnknown(store, code);
        return store.Chicks();
    }
}
