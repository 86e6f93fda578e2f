using CaptureAgent.Agent.Configuration;
using Xunit;

namespace CaptureAgent.Agent.Tests.Configuration;

public sealed class NearestWordTests
{
    [Theory]
    [InlineData("", "", 0)]
    [InlineData("abc", "abc", 0)]
    [InlineData("baud", "buad", 1)]
    [InlineData("baud", "bauds", 1)]
    [InlineData("kitten", "sitting", 3)]
    [InlineData("", "abc", 3)]
    public void Distance_counts_letters(string a, string b, int distance)
    {
        Assert.Equal(distance, NearestWord.Distance(a, b));
        Assert.Equal(distance, NearestWord.Distance(b, a));
    }

    [Fact]
    public void Nothing_near_is_no_suggestion() => Assert.Null(NearestWord.Of("colour", ["baud", "path", "kind"]));

    [Fact]
    public void The_nearest_come_first() =>
        Assert.Equal(["AM-0147", "AM-0174"], NearestWord.Of("am-0147", ["AM-0174", "ZZ-9999", "AM-0147"], 3));
}
