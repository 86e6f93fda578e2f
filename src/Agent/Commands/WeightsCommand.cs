using System.CommandLine;
using System.Globalization;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Commands;

/// <summary><c>weights CHICK</c>: every weighing of one chick.</summary>
internal static class WeightsCommand
{
    private const int Suggestions = 3;

    public static Command Create(Surroundings around)
    {
        var code = new Argument<string>("CHICK") { Description = "The chick's code, as on its card." };
        var command = new Command("weights", """
            Lists the weighings of one chick, refused ones too; the gain is counted between accepted ones.
            A note says where the liner weighed otherwise after the lift than before it, or what the weight is without the scale's drift.

            Example:
              capture-agent weights AM-0147
            """) { code };
        var arguments = new StationArguments(command);
        command.SetAction(async (parsed, _) =>
        {
            var station = arguments.Read(parsed, around);
            using var store = station.OpenExistingStore(around.Time);
            var chick = parsed.GetValue(code)!;
            RefuseUnknown(store, chick);
            var rows = store.Weighings(chick);
            var known = store.Chicks().FirstOrDefault(each => each.Code == chick);
            await parsed.InvocationConfiguration.Output.WriteAsync(Table(rows, known?.Hatched, [.. rows.Select(row => Note(row, store.TareAfter(row.Id)))]));
            return ExitCode.Done;
        });
        return command;
    }

    /// <exception cref="InputException">Neither the register nor any weighing has the code.</exception>
    public static void RefuseUnknown(CaptureStore store, string code)
    {
        var chicks = store.Chicks();
        if (!chicks.Any(each => each.Code == code) && store.AllWeighings(code).Count == 0)
            throw new InputException(Unknown(code, chicks));
    }

    private static string Unknown(string code, IReadOnlyList<Chick> chicks)
    {
        var near = NearestWord.Of(code, chicks.Select(chick => chick.Code), Suggestions);
        return $"no chick has the code '{code}'. " + (near.Count > 0 ? $"Did you mean {string.Join(" or ", near)}?" : "`capture-agent chicks` lists them.");
    }

    private static string Table(IReadOnlyList<WeighingRow> rows, DateOnly? hatched, string?[] notes)
    {
        string[] columns = ["date", ">age", ">grams", ">u", ">gain", "verdict", "reasons"];
        var table = new TextTable(notes.Any(note => note is not null) ? [.. columns, "note"] : columns);
        WeighingRow? before = null;
        foreach (var (row, note) in rows.Zip(notes))
        {
            var isAccepted = row.Verdict is Verdict.Accepted;
            var age = row.Day.DayNumber - hatched?.DayNumber ?? row.AgeDays;
            string?[] cells =
            [
                Shown.Day(row.Day), age?.ToString(CultureInfo.InvariantCulture), Shown.Grams(row.Milligrams), Shown.Uncertainty(row.UncertaintyMilligrams),
                isAccepted ? Shown.Gain(before, row) : null, isAccepted ? "accepted" : "rejected", string.Join(", ", row.Reasons),
            ];
            table.Add(notes.Any(any => any is not null) ? [.. cells, note] : cells);
            before = isAccepted ? row : before;
        }

        return table.ToString();
    }

    /// <summary>Null where the tare after the lift says nothing about the weight.</summary>
    private static string? Note(WeighingRow row, TareAfterRow? tare) => tare switch
    {
        { Slip: true } => $"may be off: the liner was {Shown.Grams(tare.BeforeMilligrams)} g before it, {Shown.Grams(tare.AfterMilligrams)} g after",
        { DriftFreeMilligrams: { } free } when Math.Abs(free - row.Milligrams ?? free) > (row.UncertaintyMilligrams ?? 0) => $"{Shown.Grams(free)} g without the scale's drift",
        _ => null,
    };
}
