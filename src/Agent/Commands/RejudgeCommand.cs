using System.CommandLine;
using CaptureAgent.Agent.Feeding.Batches;
using CaptureAgent.Agent.Rejudging;
using CaptureAgent.Agent.Round;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Commands;

/// <summary><c>rejudge</c>: what would today's rules make of the readings that are stored?</summary>
internal static class RejudgeCommand
{
    public static Command Create(Surroundings around)
    {
        var since = DayOption.Create("--since", "The first nursery day, as 2026-03-02; all if not given.");
        var chick = new Option<string?>("--chick") { HelpName = "CODE", Description = "This chick only." };
        var apply = new Option<bool>("--apply") { Description = "Write what changes: new rows take the place of the old, which stay." };
        var command = new Command("rejudge", """
            Weighs stored weighings again by today's rules, from their stored readings, and shows what would change.
            Changes nothing without --apply. A weighing is judged with the record as it was before it.

            Example:
              capture-agent rejudge --since 2026-03-01
            """) { since, chick, apply };
        var arguments = new StationArguments(command);
        command.SetAction(async (parsed, _) =>
        {
            var station = arguments.Read(parsed, around);
            using var store = station.OpenExistingStore(around.Time);
            if (parsed.GetValue(chick) is { } wanted)
                WeightsCommand.RefuseUnknown(store, wanted);
            var findings = Judge(station, store, around.Time, parsed.GetValue(since), parsed.GetValue(chick));
            var changed = findings.Where(finding => finding.Kind == FindingKind.Changes).Select(finding => finding.Now!).ToList();
            var applied = parsed.GetValue(apply);
            if (applied && changed.Count > 0)
                store.Rejudge(changed);
            await parsed.InvocationConfiguration.Output.WriteAsync(RejudgeReport.Text(findings, applied, station.Options.TimeZone));
            return ExitCode.Done;
        });
        return command;
    }

    private static List<Finding> Judge(Station station, CaptureStore store, TimeProvider time, DateOnly? since, string? chick)
    {
        var options = station.Options;
        var ledger = new Ledger(store.Chicks(), [], []);
        var rules = DecisionRules.Of(options);
        var ids = new DecisionIds(options.Station);
        var decisions = new DecisionMaker(rules, ids, new BatchBook(options, rules.Days, ids, ledger), new Cards(options.Codes.Cards), ledger);
        var rejudge = new Rejudge(decisions, store.EvidenceOf, () => Guid.CreateVersion7(time.GetUtcNow()));
        return [.. new RecordWalk(store.History(), ledger).Judge((standing, first) =>
            Rejudge.CanBeJudged(standing) && standing.Row.Day >= (since ?? DateOnly.MinValue) && standing.Row.Chick == (chick ?? standing.Row.Chick)
                ? rejudge.Judge(standing.Row, first)
                : null)];
    }
}
