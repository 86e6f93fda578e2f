using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Protocol.Tests.Scales;

public sealed class CustomPatternTests
{
    private const string Pattern = @"W=(?<sign>[+-])?(?<value>[ 0-9.,]*[0-9])(?<unit>[a-zA-Z]*)(?<stable> S| \?)?";

    [Theory]
    [InlineData("W=+  28.40g S", 28.40, MassUnit.Gram, Stability.Stable)]
    [InlineData("W=-  28,40kg ?", -28.40, MassUnit.Kilogram, Stability.Unstable)]
    [InlineData("W=28.40oz", 28.40, MassUnit.Ounce, Stability.Unstable)]
    [InlineData("W=28.40", 28.40, MassUnit.None, Stability.Unstable)]
    [InlineData("W=28.40 S", 28.40, MassUnit.None, Stability.Unstable)]
    public void A_line_is_read_by_its_groups(string line, decimal value, MassUnit unit, Stability stability) => Assert.Equal(
        (LineFault.None, new(LoadRange.Within, value, unit, stability, WeightMark.Unknown)), Made(Pattern, "W=1.0g S").Read(line));

    [Theory]
    [InlineData("W=1,028.40g", LineFault.BadNumber)]
    [InlineData("W=1 028g", LineFault.BadNumber)]
    [InlineData("W=28.40ct", LineFault.UnknownUnit)]
    [InlineData("xW=28.40g", LineFault.BadShape)]
    [InlineData("W=28.40g and more", LineFault.BadShape)]
    [InlineData("W=28.40\xE7", LineFault.BadShape)]
    [InlineData("", LineFault.BadShape)]
    public void A_line_that_does_not_fit_is_refused(string line, LineFault fault) =>
        Assert.Equal((fault, default(ScaleReading)), Made(Pattern, "W=1.0g S").Read(line));

    [Fact]
    public void Without_a_stable_group_nothing_is_known_of_motion() => Assert.Equal(
        Stability.Unknown, Made(@"(?<value>.*)(?<unit>g)", "1g").Read("2g").Reading.Stability);

    [Fact]
    public void Alternatives_at_the_top_are_matched_whole() =>
        Assert.Equal(LineFault.BadShape, Made(@"(?<value>\d+)(?<unit>g)|x", "1g").Read("x1g").Fault);

    [Fact]
    public void A_second_sign_is_refused() => Assert.Equal(
        LineFault.BadNumber, Made(@"(?<sign>[+-]?)(?<value>[-+]?\d+)(?<unit>g)", "1g").Read("--5g").Fault);

    [Theory]
    [InlineData(@"(?<value>\d+)(?=g)(?<unit>g)", "look-ahead")]
    [InlineData(@"(?<value>\d+)(?!k)(?<unit>g)", "negative look-ahead")]
    [InlineData(@"(?<value>\d+)(?<=1)(?<unit>g)", "look-behind")]
    [InlineData(@"(?<value>\d+)(?<!1)(?<unit>g)", "negative look-behind")]
    [InlineData(@"(?<value>(\d)\2*)(?<unit>g)", "back-reference")]
    [InlineData(@"(?<value>\d+)(?<unit>g)\k<unit>?", "back-reference")]
    [InlineData(@"(?<value>(?>\d+))(?<unit>g)", "atomic group")]
    [InlineData(@"(x)?(?<value>\d+)(?(1)y|z)(?<unit>g)", "conditional")]
    [InlineData(@"(?<value>\d+)(?<unit>g)(?<o>x)?(?<-o>y)?", "balancing group")]
    [InlineData(@"\G(?<value>\d+)(?<unit>g)", "contiguous match")]
    [InlineData(@"[[(?=](?#(?>)\(?<value>(?<unit>g)(?<=x)", "look-behind")] // classes, comments and escapes are passed over
    public void What_the_linear_engine_cannot_take_is_refused_by_name(string pattern, string construct)
    {
        var fault = Assert.Single(ScaleDialects.Create("custom", pattern, "1g").Faults);
        Assert.Contains($" {construct} (", fault, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(null, "1g", "needs a pattern")]
    [InlineData(Pattern, null, "needs a sample")]
    [InlineData(Pattern, "  ", "needs a sample")]
    [InlineData("", "1g", "is empty")]
    [InlineData(@"(?<value>\d+", "1g", "no regular expression")]
    [InlineData(@"(?<value>\d+)(?<unit>g)|(", "1g", "no regular expression")]
    [InlineData(@"(?<value>\d+)(?<unit>g))|(.", "1g", "no regular expression")]
    [InlineData(@"(?<value>\d{1,900000})(?<unit>g)", "1g", "repeats too much")]
    [InlineData(@"(\d+)(?<unit>g)", "1g", "no group named value")]
    [InlineData(@"(?<value>\d+)g", "1g", "no group named unit")]
    [InlineData(@"(?<value>\d+)(?<unit>g)(?<stabel>S)?", "1g", "a group named stabel; allowed are")]
    [InlineData(@"(?<value>\d+)(?<unit>g)", "1 g", "does not match")]
    [InlineData(@"(?<value>\d+)(?<unit>g)", "1g ", "does not match")]
    [InlineData(@"(?<value>.+)(?<unit>g)", "1.2.3g", "is no number")]
    [InlineData(@"(?<value>\d+)(?<unit>.*)", "12 pcs", "no unit of mass")]
    [InlineData(@"(?<value>\d+)(?<unit>.*)", "12", "no unit of mass")]
    [InlineData(@"(?<value>\d+)(?<unit>.*)", "12\u00B0", "not ASCII")]
    public void A_pattern_that_cannot_work_is_refused_at_start(string? pattern, string? sample, string says)
    {
        var dialect = ScaleDialects.Create("custom", pattern, sample);
        Assert.Null(dialect.Decoder);
        Assert.Contains(says, Assert.Single(dialect.Faults), StringComparison.Ordinal);
    }

    [Fact]
    public void All_faults_come_at_once() =>
        Assert.Equal(4, ScaleDialects.Create("custom", "(?<foo>x)", null).Faults.Count);

    [Fact]
    public void A_pattern_too_long_is_refused() => Assert.Contains(
        "at most", Assert.Single(ScaleDialects.Create("custom", new string('x', 1001), "x").Faults), StringComparison.Ordinal);

    [Fact]
    public void The_ending_of_the_sample_does_not_matter() => Assert.NotNull(Made(Pattern, "W=1.0g S\r\n"));

    [Fact]
    public void Dialects_are_known_by_name()
    {
        foreach (var name in ScaleDialects.Names)
            Assert.NotNull(ScaleDialects.Create(name, Pattern, "W=1.0g S").Decoder);
        Assert.Contains("'sign_value'", Assert.Single(ScaleDialects.Create("sign_value").Faults), StringComparison.Ordinal);
    }

    private static IScaleDecoder Made(string pattern, string sample)
    {
        var dialect = ScaleDialects.Create("custom", pattern, sample);
        Assert.Empty(dialect.Faults);
        Assert.NotNull(dialect.Decoder);
        return dialect.Decoder;
    }
}
