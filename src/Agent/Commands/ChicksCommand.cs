using System.CommandLine;
using System.Globalization;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Commands;

/// <summary><c>chicks</c>: the register, with each chick's last weight and how it stands today.</summary>
internal static class ChicksCommand
{
    public static Command Create(Surroundings around)
    {
        var all = new Option<bool>("--all") { Description = "Also chicks that have left." };
        var command = new Command("chicks", """
            Lists the chicks: age today, last accepted weight, gain since the one before, and today's state.

            Example:
              capture-agent chicks
            """) { all };
        var arguments = new StationArguments(command);
        command.SetAction(async (parsed, _) =>
        {
            var station = arguments.Read(parsed, around);
            using var store = station.OpenExistingStore(around.Time);
            var today = station.NurseryDay().Of(around.Time.GetUtcNow());
            await parsed.InvocationConfiguration.Output.WriteAsync(Table(store, today, parsed.GetValue(all)));
            return ExitCode.Done;
        });
        return command;
    }

    private static string Table(CaptureStore store, DateOnly today, bool all)
    {
        var weighings = store.Weighings(to: today).Where(row => row.Chick is not null).ToLookup(row => row.Chick!, StringComparer.Ordinal);
        var table = new TextTable("chick", "species", ">age", ">grams", "on", ">gain", "today");
        foreach (var chick in store.Chicks())
        {
            var isHere = chick.Left is not { } left || left > today;
            if (chick.Hatched > today || !(isHere || all))
                continue;

            var rows = weighings[chick.Code].ToList();
            var accepted = rows.Where(row => row.Verdict is Verdict.Accepted).ToList();
            var last = accepted.LastOrDefault();
            table.Add(
                chick.Code, chick.Species, chick.AgeOn(today)?.ToString(CultureInfo.InvariantCulture),
                Shown.Grams(last?.Milligrams), last is null ? null : Shown.Day(last.Day),
                Shown.Gain(accepted.Count > 1 ? accepted[^2] : null, last), isHere ? State(rows, today) : "left");
        }

        return table.ToString();
    }

    private static string State(List<WeighingRow> rows, DateOnly today)
    {
        var ofToday = rows.Where(row => row.Day == today).ToList();
        if (ofToday.Any(row => row.Verdict is Verdict.Accepted))
            return "weighed";
        return ofToday.Count == 0 ? "not weighed" : $"refused: {string.Join(", ", ofToday[^1].Reasons)}";
    }
}
