using System.CommandLine;
using System.CommandLine.Invocation;

namespace CaptureAgent.Agent.Commands;

/// <summary>The command line as a whole.</summary>
internal static class CommandLine
{
    private static readonly Option<bool> Verbose = new("--verbose")
    {
        Description = "Say more: details of faults, and each step of the devices' connections.",
        Recursive = true,
    };

    public static async Task<int> RunAsync(string[] arguments, Surroundings around)
    {
        var parsed = Root(around).Parse(arguments);
        Shorten(parsed.CommandResult.Command);
        // run handles SIGTERM itself, through its host; the others may end at once.
        var invocation = new InvocationConfiguration { EnableDefaultExceptionHandler = false, ProcessTerminationTimeout = null, Error = around.Error };
        using var output = around.TextOutput();
        invocation.Output = output;
        if (parsed.Action is ParseErrorAction errors)
        {
            errors.ShowHelp = false;
            // Suggestions for misspelt words too: standard output is for results.
            invocation.Output = around.Error;
            await parsed.InvokeAsync(invocation);
            await around.Error.WriteLineAsync($"`capture-agent {Names(parsed)}--help` says what is allowed.");
            return ExitCode.WrongInput;
        }

        return await Outcome.OfAsync(() => parsed.InvokeAsync(invocation), around.Error, parsed.GetValue(Verbose));
    }

    /// <summary>Whether the user asked for details.</summary>
    public static bool IsVerbose(ParseResult parsed) => parsed.GetValue(Verbose);

    private static RootCommand Root(Surroundings around)
    {
        var root = new RootCommand("""
            Captures the weights of hand-reared parrot chicks from a gram scale, a code scanner and a probe.

            Not a diagnostic device: a chick that loses weight, or whose crop does not empty, goes to an avian veterinarian.

            Examples:
              capture-agent check                       is everything ready for the round?
              capture-agent import register chicks.csv  name the chicks
              capture-agent run --events -              weigh; events on standard output
              capture-agent chicks                      who weighs what today
              capture-agent feeds                       who is due for a feed
              capture-agent morning                     which chicks are out of line
            """)
        {
            RunCommand.Create(around),
            ReplayCommand.Create(around),
            ImportCommand.Create(around),
            ExportCommand.Create(around),
            ChicksCommand.Create(around),
            WeightsCommand.Create(around),
            FeedsCommand.Create(around),
            RecipeCommand.Create(around),
            MorningCommand.Create(around),
            GrowthCommand.Create(around),
            ReportCommand.Create(around),
            RejudgeCommand.Create(around),
            CheckCommand.Create(around),
            DevicesCommand.Create(around),
            PairCommand.Create(around),
            HearCommand.Create(around),
            LabelsCommand.Create(around),
        };
        root.Options.Add(Verbose);
        return root;
    }

    // In a list of commands the first line says enough; the rest is for the command's own help.
    private static void Shorten(Command listing)
    {
        foreach (var command in listing.Subcommands)
            command.Description = command.Description?.Split('\n')[0];
    }

    private static string Names(ParseResult parsed)
    {
        var names = "";
        for (var result = parsed.CommandResult; result.Parent is System.CommandLine.Parsing.CommandResult parent; result = parent)
            names = $"{result.Command.Name} {names}";
        return names;
    }
}
