using System.CommandLine;
using CaptureAgent.Store;
using CaptureAgent.Store.Csv;

namespace CaptureAgent.Agent.Commands;

/// <summary><c>export register|weights</c>: what the store holds, as CSV.</summary>
internal static class ExportCommand
{
    public static Command Create(Surroundings around) => new("export", "Exports the register or the weights as a CSV file.")
    {
        Register(around),
        Weights(around),
    };

    private static Command Register(Surroundings around) =>
        Part(around, new Command("register", """
            Exports the register as it is now, in the order of codes.

            Example:
              capture-agent export register --output chicks.csv
            """), (_, store, text) => CsvExport.Register(store, text));

    private static Command Weights(Surroundings around)
    {
        var chick = new Option<string?>("--chick") { HelpName = "CODE", Description = "This chick only." };
        var from = DayOption.Create("--from", "The first nursery day, as 2026-03-02.");
        var to = DayOption.Create("--to", "The last nursery day, as 2026-03-02.");
        var all = new Option<bool>("--all") { Description = "Also what was replaced or taken back, with a column 'state'." };
        var command = new Command("weights", """
            Exports the weighings that stand, accepted and rejected, in the order of date and code.

            Example:
              capture-agent export weights --from 2026-03-01 --output march.csv
            """) { chick, from, to, all };
        return Part(around, command, (parsed, store, text) =>
            CsvExport.Weights(store, text, parsed.GetValue(chick), parsed.GetValue(from), parsed.GetValue(to), parsed.GetValue(all)));
    }

    private static Command Part(Surroundings around, Command command, Action<ParseResult, CaptureStore, TextWriter> export)
    {
        var output = new Option<string?>("--output") { HelpName = "FILE", Description = "Where to write; standard output if not given." };
        command.Options.Add(output);
        var arguments = new StationArguments(command);
        command.SetAction(parsed =>
        {
            var station = arguments.Read(parsed, around);
            using var store = station.OpenExistingStore(around.Time);
            using var text = parsed.GetValue(output) is { } path ? Create(around.FullPath(path)) : around.TextOutput();
            export(parsed, store, text);
            return ExitCode.Done;
        });
        return command;
    }

    private static StreamWriter Create(string path)
    {
        try
        {
            return new StreamWriter(path);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw new InputException($"{path} cannot be written: {failure.Message}");
        }
    }
}
