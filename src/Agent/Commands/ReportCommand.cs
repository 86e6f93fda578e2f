using System.CommandLine;
using CaptureAgent.Agent.Reports;

namespace CaptureAgent.Agent.Commands;

/// <summary><c>report CHICK</c>: all that is recorded of a chick, as a PDF.</summary>
internal static class ReportCommand
{
    public static Command Create(Surroundings around)
    {
        var code = new Argument<string>("CHICK") { Description = "The chick's code, as on its card." };
        var output = new Option<string?>("--output") { HelpName = "FILE", Description = "Where to write; CODE.pdf in the working directory if not given." };
        var command = new Command("report", """
            Writes the hand-over of one chick as a PDF, for the avian veterinarian or the new owner: identity, growth chart,
            every weighing, feeds, observations, corrections.

            Example:
              capture-agent report AM-0147 --output AM-0147.pdf
            """) { code, output };
        var arguments = new StationArguments(command);
        command.SetAction(async (parsed, _) =>
        {
            var station = arguments.Read(parsed, around);
            using var store = station.OpenExistingStore(around.Time);
            var chick = parsed.GetValue(code)!;
            WeightsCommand.RefuseUnknown(store, chick);
            var now = around.Time.GetUtcNow();
            var dossier = ChickDossier.Read(store, chick, station.NurseryDay().Of(now), TimeZoneInfo.FindSystemTimeZoneById(station.Options.TimeZone), station.Options.Station);
            var path = around.FullPath(parsed.GetValue(output) ?? chick.Replace('/', '-') + ".pdf");
            OutputFile.Write(path, ChickReport.Pdf(dossier, now));
            await parsed.InvocationConfiguration.Output.WriteAsync($"{path}\n");
            return ExitCode.Done;
        });
        return command;
    }
}
