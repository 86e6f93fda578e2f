using System.CommandLine;
using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Growth.Charts;

namespace CaptureAgent.Agent.Commands;

/// <summary><c>growth CHICK</c>, <c>growth --species NAME</c>, <c>growth --all</c>: how a chick has grown, what its kind weighs by age; as text and as a chart.</summary>
internal static class GrowthCommand
{
    private const int Width = 1000;
    private const int Height = 760;

    public static Command Create(Surroundings around)
    {
        var code = new Argument<string?>("CHICK") { Description = "The chick's code, as on its card.", Arity = ArgumentArity.ZeroOrOne };
        var species = new Option<string?>("--species") { HelpName = "NAME", Description = "The curve of a species, by scientific or English name, instead of a chick's." };
        var all = new Option<bool>("--all") { Description = "The best fitted curve of every chick of the store, as CSV on standard output." };
        var svg = new Option<string?>("--svg") { HelpName = "FILE", Description = "Draw the chart into this file, as SVG." };
        var png = new Option<string?>("--png") { HelpName = "FILE", Description = "Draw the chart into this file, as PNG." };
        var command = new Command("growth", """
            Shows how a chick has grown: gain, place among its kind, fitted curves. It compares and diagnoses nothing.
            The reference is made from this nursery's other chicks, or is a published one; it always says which.

            Example:
              capture-agent growth AM-0147 --png AM-0147.png
              capture-agent growth --species "Ara macao" --svg macaws.svg
              capture-agent growth --all
            """) { code, species, all, svg, png };
        var arguments = new StationArguments(command);
        command.Validators.Add(result =>
        {
            if (new[] { result.GetValue(code) is not null, result.GetValue(species) is not null, result.GetValue(all) }.Count(given => given) != 1)
                result.AddError("growth wants one of the three: a chick's code, --species NAME, or --all.");
            else if (result.GetValue(all) && (result.GetValue(svg) ?? result.GetValue(png)) is not null)
                result.AddError("--svg and --png draw one chick or one species, not --all.");
        });
        command.SetAction(async (parsed, _) =>
        {
            var station = arguments.Read(parsed, around);
            using var store = station.OpenExistingStore(around.Time);
            var output = parsed.InvocationConfiguration.Output;
            if (parsed.GetValue(all))
            {
                await output.WriteAsync($"{FitsCsv.Header}\r\n");
                RegisterFits.Each(store, fit => output.Write($"{FitsCsv.Row(fit)}\r\n"));
                return ExitCode.Done;
            }

            var (chart, text) = parsed.GetValue(code) is { } chick
                ? Chick(store, chick)
                : Species(store, parsed.GetValue(species)!);
            if (parsed.GetValue(svg) is { } svgPath)
                OutputFile.Write(around.FullPath(svgPath), System.Text.Encoding.UTF8.GetBytes(chart.Value.Svg(Width, Height)));
            if (parsed.GetValue(png) is { } pngPath)
                OutputFile.Write(around.FullPath(pngPath), chart.Value.Png(Width, Height));
            await output.WriteAsync(text);
            return ExitCode.Done;
        });
        return command;
    }

    // The chart is drawn only where a file is asked for: its libraries take half a second to wake.
    private static (Lazy<Chart> Chart, string Text) Chick(Store.CaptureStore store, string code)
    {
        WeightsCommand.RefuseUnknown(store, code);
        var view = NurseryGrowth.Read(store).View(code);
        return (new(() => ChickChart.Of(view)), GrowthText.Of(view));
    }

    private static (Lazy<Chart> Chart, string Text) Species(Store.CaptureStore store, string species)
    {
        var nursery = NurseryGrowth.Read(store);
        var reference = nursery.References.Of(species) ?? throw new InputException(GrowthText.UnknownSpecies(species, store.Chicks()));
        return (new(() => SpeciesChart.Of(reference, nursery.Of(reference))), GrowthText.Of(reference));
    }
}
