using CaptureAgent.Agent.Weighing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Weighing;

/// <summary>How far the weight as told has wandered.</summary>
public sealed class EstimatePathTests
{
    [Fact]
    public void What_was_told_before_the_span_does_not_count()
    {
        var path = new EstimatePath();
        foreach (var (seconds, grams) in new[] { (0.0, 90.0), (2.0, 100.0), (2.5, 100.4), (3.1, 100.1) })
            path.Add(seconds, grams);
        Assert.Equal(0.4, path.Range(1), 9);
        Assert.Equal(10.4, path.Range(3), 9);
    }

    [Fact]
    public void A_level_that_is_younger_than_the_span_has_no_range()
    {
        var path = new EstimatePath();
        Assert.True(double.IsNaN(path.Range(1)));
        path.Add(0, 100);
        path.Add(0.9, 101);
        Assert.True(double.IsNaN(path.Range(1)));
        path.Add(1.1, 101);
        Assert.Equal(1, path.Range(1), 9);
        path.Clear();
        Assert.True(double.IsNaN(path.Range(0.1)));
    }

    [Fact]
    public void A_long_level_is_told_by_its_newest_end()
    {
        var path = new EstimatePath();
        for (var i = 0; i < 200; i++)
            path.Add(i * 0.2, i);
        Assert.Equal(5, path.Range(1), 9);
    }
}
