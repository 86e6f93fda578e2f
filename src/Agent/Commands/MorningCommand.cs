using System.CommandLine;
using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Thriving;

namespace CaptureAgent.Agent.Commands;

/// <summary><c>morning</c>: which chicks are out of line today.</summary>
internal static class MorningCommand
{
    public static Command Create(Surroundings around)
    {
        var date = DayOption.Create("--date", "The nursery day to judge; default: today.");
        var json = new Option<bool>("--json") { Description = "As JSON." };
        var html = new Option<bool>("--html") { Description = "As one HTML page, to print or to send." };
        var command = new Command("morning", """
            Says which chicks are out of line: reds first, then those not weighed yet, then all, with what was seen of them that day.
            It compares weights and never diagnoses: a chick that looks ill is ill whatever it weighs.

            Examples:
              capture-agent morning
              capture-agent morning --date 2026-03-02 --json
            """) { date, json, html };
        var arguments = new StationArguments(command);
        command.Validators.Add(result =>
        {
            if (result.GetValue(json) && result.GetValue(html))
                result.AddError("--json and --html exclude each other: take one.");
        });
        command.SetAction(async (parsed, _) =>
        {
            var station = arguments.Read(parsed, around);
            using var store = station.OpenToRead(around.Time);
            var day = parsed.GetValue(date) ?? station.NurseryDay().Of(around.Time.GetUtcNow());
            var summary = MorningSummary.Of(MorningRecord.Read(store, day), PublishedGrowth.Instance);
            if (parsed.GetValue(json))
            {
                MorningJson.Write(summary, around.Output);
                return ExitCode.Done;
            }

            await parsed.InvocationConfiguration.Output.WriteAsync(parsed.GetValue(html) ? MorningHtml.Of(summary) : MorningText.Of(summary));
            return ExitCode.Done;
        });
        return command;
    }
}
