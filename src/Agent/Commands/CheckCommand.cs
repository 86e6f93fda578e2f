using System.CommandLine;
using CaptureAgent.Agent.Checks;

namespace CaptureAgent.Agent.Commands;

/// <summary><c>check</c>: is everything ready for the round, and if not, how is it mended?</summary>
internal static class CheckCommand
{
    private const double UsualWaitSeconds = 5;

    public static Command Create(Surroundings around)
    {
        var wait = new Option<double>("--wait")
        {
            HelpName = "SECONDS",
            Description = "How long to wait for each device to say something.",
            DefaultValueFactory = _ => UsualWaitSeconds,
        };
        wait.Validators.Add(result =>
        {
            if (result.GetValueOrDefault<double>() is not (> 0 and <= 600))
                result.AddError("--wait: allowed are more than 0, up to 600 seconds.");
        });
        var command = new Command("check", """
            Looks at the configuration, the store, the clock and every device, and says what is wrong and how to mend it.
            Stop a running agent first: it holds the devices.

            Example:
              capture-agent check --station /etc/capture-agent/station.json
            """) { wait };
        var arguments = new StationArguments(command);
        command.SetAction(async (parsed, stop) =>
        {
            var station = arguments.Read(parsed, around, devicesAreOpened: true);
            var report = new CheckReport(parsed.InvocationConfiguration.Output);
            report.Good("configuration", $"{station.File}: station '{station.Options.Station}', {station.Options.Devices.Count} devices");
            StoreCheck.Look(station.StorePath, around.Time, report);
            ClockCheck.Look(station.Options, station.NurseryDay(), around.Time.GetUtcNow(), report);
            await DeviceCheck.LookAsync(station.Options.Devices, TimeSpan.FromSeconds(parsed.GetValue(wait)), around.Time, report, stop);
            await AnswerCheck.LookAsync(station.Options.Answers, around.Time, report, stop);
            ScaleCheck.Look(station.Options, station.StorePath, around.Time, report);
            ProbeCheck.Look(station.Options, station.StorePath, around.Time, report);
            report.Note("This is no diagnostic device, and the scale is not for trade. A chick that loses weight, or whose crop does not empty, goes to an avian veterinarian.");
            return report.IsGood ? ExitCode.Done : ExitCode.Unusable;
        });
        return command;
    }
}
