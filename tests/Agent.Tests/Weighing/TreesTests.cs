using CaptureAgent.Agent.Weighing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Weighing;

public sealed class TreesTests
{
    private const string Two = "# a remark\n0\t1\t0.5\t1\t2\n0\tleaf\t-1\n0\t0\t2\t3\t4\n0\tleaf\t0.25\n0\tleaf\t4\n1\tleaf\t0.125\n";

    [Theory]
    [InlineData(9, 0.5, -0.875)]
    [InlineData(2, 0.6, 0.375)]
    [InlineData(2.1, 0.6, 4.125)]
    public void The_leaves_that_the_walks_end_at_are_added(float first, float second, double sum) =>
        Assert.Equal(sum, Trees.Read(new StringReader(Two)).Sum([first, second]), 1e-12);

    [Fact]
    public void As_many_features_are_asked_for_as_the_highest_number_says() => Assert.Equal(2, Trees.Read(new StringReader(Two)).Features);

    [Theory]
    [InlineData("0\t1\t0.5\t1", "Line 1")]
    [InlineData("0\tleaf\tmuch", "Line 1")]
    [InlineData("0\tleaf\t1\nx\tleaf\t1", "Line 2")]
    [InlineData("0\t1\t0.5\t0\t1\n0\tleaf\t1", "Node 0")]
    [InlineData("0\t1\t0.5\t1\t2\n0\tleaf\t1", "Node 0")]
    [InlineData("1\tleaf\t1", "Line 1")]
    public void A_line_that_makes_no_sense_is_named(string text, string where) =>
        Assert.Contains(where, Assert.Throws<FormatException>(() => Trees.Read(new StringReader(text))).Message, StringComparison.Ordinal);

    [Fact]
    public void The_shipped_trees_were_fitted_to_the_signs_that_there_are_in_their_order()
    {
        using var text = new StreamReader(typeof(Trees).Assembly.GetManifestResourceStream("settling-trees.tsv")!);
        var fitted = text.ReadToEnd().Split('\n').Single(line => line.StartsWith("# Fitted", StringComparison.Ordinal));
        Assert.EndsWith($"counted from 0: {string.Join(", ", Signs.Names)}.", fitted, StringComparison.Ordinal);
    }
}
