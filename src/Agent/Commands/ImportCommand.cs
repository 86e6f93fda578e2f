using System.CommandLine;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Store;
using CaptureAgent.Store.Csv;

namespace CaptureAgent.Agent.Commands;

/// <summary><c>import register|weights</c>: CSV into the store, all or nothing unless bad rows are to be skipped.</summary>
internal static class ImportCommand
{
    private const int FaultsShown = 100;

    public static Command Create(Surroundings around) => new("import", "Imports a register or weights from a CSV file.")
    {
        Part(around, "register", CsvImport.Register, """
            Imports chicks: columns code,species,hatched[,clutch,brooder,band,left,note], in any order.
            A code that is known already is updated. One bad row keeps the whole file out, unless --skip-bad is given.

            Example:
              capture-agent import register chicks.csv
            """),
        Part(around, "weights", CsvImport.Weights, """
            Imports weights: columns chick,date,grams[,at,verdict,reasons,uncertaintyGrams,...], in any order.
            The same row again changes nothing; another value for a day is a correction. One bad row keeps the whole
            file out, unless --skip-bad is given.

            Example:
              capture-agent import weights notebook.csv --skip-bad
            """),
    };

    /// <summary>What an import takes from the station.</summary>
    public static ImportOptions Options(StationOptions station, bool skipBad) =>
        new(station.Station, station.TimeZone, skipBad, CodeFaults.Of(station.Codes));

    /// <exception cref="InputException">The file cannot be read.</exception>
    public static TextReader Open(string path)
    {
        try
        {
            return CsvImport.OpenText(new FileStream(path, FileMode.Open, FileAccess.Read));
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw new InputException(failure is FileNotFoundException or DirectoryNotFoundException ? $"{path}: there is no such file." : $"{path} cannot be read: {failure.Message}");
        }
    }

    /// <summary>Each bad row with its number and reason.</summary>
    public static string Describe(string path, IReadOnlyList<BadRow> bad) =>
        $"{path} has {bad.Count} {(bad.Count == 1 ? "fault" : "faults")}:\n" + string.Join('\n', bad.Take(FaultsShown).Select(row => $"  {row}"))
        + (bad.Count > FaultsShown ? $"\n  and {bad.Count - FaultsShown} more" : "");

    private static Command Part(
        Surroundings around, string name, Func<CaptureStore, TextReader, ImportOptions, ImportResult> import, string description)
    {
        var file = new Argument<string>("FILE") { Description = "CSV (RFC 4180), UTF-8, with a header row." };
        var skip = new Option<bool>("--skip-bad") { Description = "Leave bad rows out and import the others." };
        var command = new Command(name, description) { file, skip };
        var arguments = new StationArguments(command);
        command.SetAction(async (parsed, _) =>
        {
            var station = arguments.Read(parsed, around);
            var path = around.FullPath(parsed.GetValue(file)!);
            using var text = Open(path);
            using var store = station.OpenStore(around.Time);
            var result = import(store, text, Options(station.Options, parsed.GetValue(skip)));
            if (result.Bad.Count > 0)
                await around.Error.WriteLineAsync($"capture-agent: {Describe(path, result.Bad)}");
            if (!result.Written)
            {
                await around.Error.WriteLineAsync("Nothing was imported. Mend these rows, or leave them out with --skip-bad.");
                return ExitCode.WrongInput;
            }

            await parsed.InvocationConfiguration.Output.WriteLineAsync(Summary(name, result));
            return ExitCode.Done;
        });
        return command;
    }

    private static string Summary(string name, ImportResult result)
    {
        var skipped = result.Bad.Select(row => row.Row).Distinct().Count();
        return $"{name}: {result.Added} added, {result.Corrected} {(name == "register" ? "updated" : "corrected")}, {result.Unchanged} unchanged"
            + (skipped > 0 ? $", {skipped} bad rows skipped" : "")
            + (result.NotStanding > 0 ? $", {result.NotStanding} left out because the file marks them as replaced or taken back" : "")
            + (result.Adopted > 0 ? $"; {result.Adopted} earlier weighings adopted" : "") + ".";
    }
}
