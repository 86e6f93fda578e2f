using CaptureAgent.Simulators.Nursery.Flock;
using CaptureAgent.Simulators.Nursery.Round;
using CaptureAgent.Simulators.Nursery.Watching;
using Xunit;

namespace CaptureAgent.Simulators.Tests.Nursery;

public sealed class OutcomeTests
{
    private static readonly NurseryChick Chick = new InventedNursery(7, new(2026, 3, 2))["AM-0147"];

    [Theory]
    [InlineData("186.4", true)]
    [InlineData("186.95", true)]
    [InlineData("187.1", false)]
    [InlineData("185.7", false)]
    public void Accepted_weight_must_be_right_within_the_band(string grams, bool right)
    {
        var answer = Event($$"""{"event":"weighing","chick":"AM-0147","grams":{{grams}},"verdict":"accepted","reasons":[],"remedy":null}""");
        Assert.Equal(right, Outcome.Accepted("morning weight", Chick, answer, 186.4, 0.1m).Problem is null);
    }

    [Fact]
    public void Missing_or_rejected_weighing_is_a_problem_where_one_was_due()
    {
        Assert.Equal("no weighing came", Outcome.Accepted("morning weight", Chick, null, 186.4, 0.1m).Problem);
        var rejected = Event("""{"event":"weighing","chick":"AM-0147","grams":186.4,"verdict":"rejected","reasons":["unsettled"],"remedy":"Wait."}""");
        Assert.Contains("unsettled", Outcome.Accepted("morning weight", Chick, rejected, 186.4, 0.1m).Problem, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("""["after-feed"]""", "\"Tomorrow.\"", true)]
    [InlineData("""["after-feed","already-weighed"]""", "\"Tomorrow.\"", false)]
    [InlineData("""[]""", "\"Tomorrow.\"", false)]
    [InlineData("""["after-feed"]""", "\"\"", false)]
    [InlineData("""["after-feed"]""", "null", false)]
    public void Rejection_must_have_its_reasons_and_a_remedy(string reasons, string remedy, bool right)
    {
        var answer = Event($$"""{"event":"weighing","chick":"AM-0147","grams":204.9,"verdict":"rejected","reasons":{{reasons}},"remedy":{{remedy}}}""");
        Assert.Equal(right, Outcome.Rejected("fed", Chick, answer, "after-feed").Problem is null);
    }

    [Fact]
    public void Tare_must_be_that_of_the_towel()
    {
        Assert.Null(Outcome.Tared("towel", Event("""{"event":"tare","grams":8.25}"""), 8.2, 0.1m).Problem);
        Assert.NotNull(Outcome.Tared("towel", Event("""{"event":"tare","grams":9.6}"""), 8.2, 0.1m).Problem);
        Assert.NotNull(Outcome.Tared("towel", null, 8.2, 0.1m).Problem);
    }

    [Fact]
    public void Report_tells_the_weight_the_gain_and_what_was_missing()
    {
        var answer = Event("""{"event":"weighing","chick":"AM-0147","grams":300.0,"verdict":"accepted","reasons":[],"remedy":null}""");
        Outcome[] outcomes = [new("morning weight", Chick, answer, null), new("fresh towel", null, null, "no tare came")];

        var (good, text) = Print([outcomes[0]], 1, null);
        Assert.True(good);
        Assert.Contains("AM-0147  orange-winged amazon", text, StringComparison.Ordinal);
        Assert.Contains("300.0 g", text, StringComparison.Ordinal);
        Assert.Contains("avian veterinarian", text, StringComparison.Ordinal);
        Assert.False(Print(outcomes, 2, null).Good);
        Assert.Contains("station, fresh towel: no tare came", Print(outcomes, 2, null).Text, StringComparison.Ordinal);
        Assert.False(Print([outcomes[0]], 2, null).Good);
        Assert.False(Print([outcomes[0]], 1, "the agent ended with exit code 1").Good);
    }

    [Fact]
    public void Line_that_is_no_event_is_none()
    {
        Assert.Null(AgentEvent.Parse("half a li"));
        Assert.Null(AgentEvent.Parse("12"));
        Assert.Equal("ready", AgentEvent.Parse("""{"event":"ready"}""")?.Told);
    }

    private static AgentEvent Event(string line) => AgentEvent.Parse(line)!;

    private static (bool Good, string Text) Print(IReadOnlyList<Outcome> outcomes, int planned, string? ending)
    {
        using var output = new StringWriter();
        var good = Report.Print(new(output, TimeProvider.System), outcomes, planned, ending);
        return (good, output.ToString());
    }
}
