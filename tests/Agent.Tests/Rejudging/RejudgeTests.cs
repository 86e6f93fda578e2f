using System.Text;
using CaptureAgent.Store;
using Xunit;

namespace CaptureAgent.Agent.Tests.Rejudging;

public sealed class RejudgeTests : IAsyncLifetime
{
    private readonly Morning morning = new();

    public async ValueTask InitializeAsync() => await morning.PlayAsync();

    public ValueTask DisposeAsync()
    {
        morning.Dispose();
        return ValueTask.CompletedTask;
    }

    [Fact]
    public async Task The_same_rules_over_the_same_readings_change_nothing()
    {
        using (var store = morning.Open())
        {
            var rows = store.AllWeighings().Where(stored => stored.Row.Origin == Origin.Captured).ToList();
            Assert.Equal(7, rows.Count);
            Assert.Contains(rows, stored => stored.Row.Reasons.Contains("unsettled") || stored.Row.Reasons.Contains("hand-contact"));
            Assert.Contains(rows, stored => stored.Row.Reasons.Contains("after-feed"));
            Assert.Contains(rows, stored => stored.State == WeighingState.Replaced);
            Assert.Contains(rows, stored => stored.State == WeighingState.TakenBack);
        }

        Assert.Equal((0, "5 weighings judged again: nothing changes.\n", ""), await morning.RunAsync("rejudge --apply"));
    }

    [Fact]
    public async Task A_wrong_weight_is_shown_and_nothing_is_written()
    {
        PlantGrams("AM-0147", 30_000);
        var before = Rows();

        var (code, output, _) = await morning.RunAsync("rejudge");

        Assert.Equal(0, code);
        Assert.Contains("AM-0147  was  216.", output, StringComparison.Ordinal);
        Assert.Contains("now  186.", output, StringComparison.Ordinal);
        Assert.Contains("5 weighings judged again: 1 would change; nothing was written", output, StringComparison.Ordinal);
        Assert.Equal(before, Rows());
    }

    [Fact]
    public async Task Applied_a_new_row_takes_the_place_of_the_old_which_stays_and_a_second_run_finds_nothing()
    {
        PlantGrams("AM-0147", 30_000);

        Assert.Contains("1 changed; the old rows stay", (await morning.RunAsync("rejudge --apply")).Output, StringComparison.Ordinal);

        using (var store = morning.Open())
        {
            var rows = store.AllWeighings("AM-0147", new DateOnly(2026, 3, 2)).Where(stored => stored.Row.Verdict == Verdict.Accepted).ToList();
            Assert.Equal([(Origin.Captured, WeighingState.Replaced), (Origin.Rejudged, WeighingState.Stands)], rows.Select(stored => (stored.Row.Origin, stored.State)));
            Assert.Equal(rows[0].Row.Id, rows[1].Row.Replaces);
            Assert.Equal(rows[0].Row.At, rows[1].Row.At);
            Assert.NotNull(store.EvidenceOf(rows[1].Row.Id));
        }

        var export = (await morning.RunAsync("export weights --chick AM-0147 --from 2026-03-02")).Output;
        Assert.Contains("AM-0147,2026-03-02,186.", export, StringComparison.Ordinal);
        Assert.DoesNotContain("AM-0147,2026-03-02,216.", export, StringComparison.Ordinal);
        Assert.Equal("5 weighings judged again: nothing changes.\n", (await morning.RunAsync("rejudge --apply")).Output);
    }

    [Fact]
    public async Task A_refusal_that_the_readings_do_not_bear_out_becomes_a_weight()
    {
        morning.Plant((row, evidence) => row is { Chick: "AM-0147", Verdict: Verdict.Accepted }
            ? (row with { Verdict = Verdict.Rejected, Reasons = ["unsettled"], Remedy = "Wait." }, evidence)
            : (row, evidence));

        var output = (await morning.RunAsync("rejudge --chick AM-0147")).Output;

        Assert.Contains("rejected  unsettled", output, StringComparison.Ordinal);
        Assert.Contains("accepted", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_before_feed_rule_is_judged_with_the_record_as_it_was()
    {
        // Wrongly accepted although it was fed, and weighed, before.
        morning.Plant((row, evidence) => row is { Chick: "AM-0147", Verdict: Verdict.Rejected }
            ? (row with { Verdict = Verdict.Accepted, Reasons = [], Remedy = null }, evidence)
            : (row, evidence));

        var output = (await morning.RunAsync("rejudge --chick AM-0147")).Output;

        Assert.Contains("rejected  after-feed, already-weighed", output, StringComparison.Ordinal);
        Assert.Contains("1 would change", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_correction_mends_the_later_verdicts_that_it_had_spoilt()
    {
        // A wrong weight made that of the next day look impossible.
        morning.Plant((row, evidence) => row switch
        {
            { Chick: "AM-0147", Verdict: Verdict.Accepted } => (row with { Milligrams = 120_000 }, evidence),
            { Chick: "AM-0147" } => (row with { Reasons = ["implausible"], Day = row.Day.AddDays(1), At = row.At + TimeSpan.FromDays(1) }, evidence),
            _ => (row, evidence),
        });

        Assert.Contains("5 weighings judged again: 2 changed", (await morning.RunAsync("rejudge --apply")).Output, StringComparison.Ordinal);

        Assert.Contains("AM-0147,2026-03-03,19", (await morning.RunAsync("export weights --from 2026-03-03")).Output, StringComparison.Ordinal);
        Assert.Equal("5 weighings judged again: nothing changes.\n", (await morning.RunAsync("rejudge")).Output);
    }

    [Fact]
    public async Task Where_the_readings_end_before_today_s_rule_is_certain_the_weight_is_left_and_said_so()
    {
        morning.Plant((row, evidence) => (row, row is { Chick: "AM-0147", Verdict: Verdict.Accepted } ? Cut(evidence!) : evidence));

        var (code, output, _) = await morning.RunAsync("rejudge --apply");

        Assert.Equal(0, code);
        Assert.Contains("AM-0147 is left as it is: the readings end", output, StringComparison.Ordinal);
        Assert.Contains("4 weighings judged again, 1 not certain from their readings: nothing changes.", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Readings_that_are_missing_or_cannot_be_read_are_counted_and_named()
    {
        morning.Plant((row, evidence) => row.Chick switch
        {
            "AM-0147" => (row, null),
            "GR-0096" => (row, new Evidence("samples/9", "later"u8.ToArray())),
            _ => (row, evidence),
        });

        var (code, output, _) = await morning.RunAsync("rejudge");

        Assert.Equal(0, code);
        Assert.Contains("GR-0096 is left as it is: the layout 'samples/9' is not known", output, StringComparison.Ordinal);
        Assert.Contains("2 without readings, 2 with readings that cannot be read", output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("rejudge --since 2026-03-03", 0, "0 weighings judged again: nothing changes.")]
    [InlineData("rejudge --since 2026-03-02 --chick GR-0096", 0, "2 weighings judged again: nothing changes.")]
    [InlineData("rejudge --chick AM-0174", 2, "Did you mean AM-0147")]
    [InlineData("rejudge --store none.db", 3, "There is no store")]
    public async Task Day_and_chick_choose_what_is_judged(string arguments, int code, string said)
    {
        var result = await morning.RunAsync(arguments);

        Assert.Equal(code, result.Code);
        Assert.Contains(said, result.Output + result.Error, StringComparison.Ordinal);
    }

    private void PlantGrams(string chick, long more) => morning.Plant((row, evidence) =>
        row.Chick == chick && row.Verdict == Verdict.Accepted ? (row with { Milligrams = row.Milligrams + more }, evidence) : (row, evidence));

    private List<string> Rows()
    {
        using var store = morning.Open();
        return [.. store.AllWeighings().Select(stored => $"{stored.Row.Id} {stored.Row.Milligrams} {stored.Row.Verdict} {stored.State}")];
    }

    /// <summary>Without the last three seconds.</summary>
    private static Evidence Cut(Evidence evidence)
    {
        var lines = Encoding.UTF8.GetString(evidence.Samples.Span).TrimEnd('\n').Split('\n');
        return new Evidence(evidence.Format, Encoding.UTF8.GetBytes(string.Join('\n', lines[..^30]) + "\n"));
    }
}
