using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using CaptureAgent.Agent.Feeding;
using CaptureAgent.Agent.Hosting;
using CaptureAgent.Agent.Round;

namespace CaptureAgent.Agent.Commands;

/// <summary><c>feeds</c>: who is due, who is overdue, the longest fast, and the chores that are due.</summary>
internal static class FeedsCommand
{
    public static Command Create(Surroundings around)
    {
        var json = new Option<bool>("--json") { Description = "One JSON object instead of a table." };
        var command = new Command("feeds", """
            Lists the chicks by their next feed: the overdue ones first; then the chores of hygiene that are due.
            A chick whose feeds nobody has recorded is listed as unknown. Times are the station's.

            Example:
              capture-agent feeds
            """) { json };
        var arguments = new StationArguments(command);
        command.SetAction(async (parsed, _) =>
        {
            var station = arguments.Read(parsed, around);
            using var store = station.OpenExistingStore(around.Time);
            var now = around.Time.GetUtcNow();
            var ledger = Ledgers.Read(store, now);
            var rules = DecisionRules.Of(station.Options);
            var standings = FeedList.At(now, ledger, rules.Plan, rules.Days);
            var chores = rules.Hygiene.DueAt(now, ledger).Select(due => new ChoreJson(due.Chore, Shown.Utc(due.Since), rules.Hygiene.TextOf(due.Chore))).ToList();
            var text = parsed.GetValue(json)
                ? JsonSerializer.Serialize(Json(now, standings, chores), ListJsonContext.Default.FeedsJson) + "\n"
                : Table(now, standings, chores, TimeZoneInfo.FindSystemTimeZoneById(station.Options.TimeZone));
            await parsed.InvocationConfiguration.Output.WriteAsync(text);
            return ExitCode.Done;
        });
        return command;
    }

    private static FeedsJson Json(DateTimeOffset now, IReadOnlyList<FeedStanding> standings, IReadOnlyList<ChoreJson> chores) => new(
        Shown.Utc(now)!,
        [.. standings.Select(one => new FedChickJson(
            one.Chick.Code, one.AgeDays, one.Every.TotalHours, Shown.Utc(one.LastFeed), one.LastIntakeGrams, one.FeedsToday, Shown.Utc(one.DueAt), one.State,
            one.DueAt <= now ? Math.Round((now - one.DueAt.Value).TotalMinutes, 1) : null,
            one.LongestFast is { } fast ? Math.Round(fast.TotalHours, 2) : null, one.FastExceeded))],
        chores);

    private static string Table(DateTimeOffset now, IReadOnlyList<FeedStanding> standings, List<ChoreJson> chores, TimeZoneInfo zone)
    {
        var table = new TextTable("chick", ">age", ">every", "last feed", ">took", ">today", "due", "state", ">longest fast");
        foreach (var one in standings)
        {
            table.Add(
                one.Chick.Code, one.AgeDays?.ToString(CultureInfo.InvariantCulture), Hours(one.Every), Shown.Local(one.LastFeed, zone),
                one.LastIntakeGrams?.ToString("0.0 g", CultureInfo.InvariantCulture), one.FeedsToday.ToString(CultureInfo.InvariantCulture),
                Shown.Local(one.DueAt, zone), State(one, now), one.LongestFast is { } fast ? Hours(fast) + (one.FastExceeded ? " !" : "") : null);
        }

        var due = chores.Select(chore => $"{chore.Chore}: {chore.Text}{(chore.DueAt is null ? " (never recorded)" : "")}\n");
        return table + (chores.Count > 0 ? "\nTo be done:\n" + string.Concat(due) : "");
    }

    private static string State(FeedStanding one, DateTimeOffset now) => one switch
    {
        { State: "late" or "due", DueAt: { } due } => $"{one.State}, by {Hours(now - due)}",
        { State: "later", DueAt: { } due } => $"in {Hours(due - now)}",
        { State: "unknown" } => "no feed known",
        _ => one.State,
    };

    private static string Hours(TimeSpan time) => string.Create(CultureInfo.InvariantCulture, $"{(int)time.TotalHours}:{time.Minutes:00}");
}
