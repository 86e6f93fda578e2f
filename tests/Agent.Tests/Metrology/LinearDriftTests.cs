using CaptureAgent.Agent.Weighing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Metrology;

/// <summary>Weighing by turns: a scale that drifts in a straight line costs nothing.</summary>
public sealed class LinearDriftTests
{
    private static readonly double[] Circular =
    [
        22.1, 743.7, 3080.4, 4003.4,
        18.3, 739.2, 3075.5, 3998.2,
        14.2, 734.7, 3071.6, 3994.8,
    ];

    [Fact]
    public void The_worked_example_of_comparisons_in_the_presence_of_drift_is_met()
    {
        // Sutton and Clarkson, "A general approach to comparisons in the presence of drift", Metrologia 30 (1993/94) 487: readings of four items by turns, three rounds. Its
        // residual deviation with a straight drift is 0.39 (0.39013124 in the tests of a national laboratory's program on the same readings, as is 4.30300283 without drift).
        // The differences: R 4.2.2, lm(y ~ item + t), coefficients item2, item3, item4 and t.
        var drift = Fit();
        Assert.Equal(0.39013124, drift.ResidualDeviation, 8);
        Assert.Equal(-1.07187499999995, drift.PerSecond, 10);
        Assert.Equal(722.07187499999918, drift.Difference(1, 0), 9);
        Assert.Equal(3059.77708333333294, drift.Difference(2, 0), 9);
        Assert.Equal(3983.81562499999973, drift.Difference(3, 0), 9);
        Assert.Equal(-drift.Difference(3, 1), drift.Difference(1, 3), 9);
    }

    [Fact]
    public void Without_the_drift_taken_out_the_same_readings_scatter_eleven_times_as_much()
    {
        // The same source: 4.30300283 with a level for each item alone (8 degrees of freedom that the drift would share: here by hand).
        double squares = 0;
        for (var item = 0; item < 4; item++)
        {
            double[] values = [Circular[item], Circular[item + 4], Circular[item + 8]];
            squares += Series.Squares(values, Series.Mean(values));
        }

        Assert.Equal(4.30300283, Math.Sqrt(squares / (12 - 4)), 7);
        Assert.True(Fit().ResidualDeviation < 4.30300283 / 11);
    }

    [Fact]
    public void Four_weighings_give_the_difference_of_double_substitution()
    {
        // NIST SOP 4 (NISTIR 6969), double substitution: standard, unknown, unknown with a small weight, standard with it: d = ((O2 - O1) + (O3 - O4)) / 2, times the small
        // weight over its own reading (formula from memory). A true difference of 0.03 g under a drift of 0.01 g a reading; the numbers are made, not NIST's.
        double[] o = [100.01, 100.05, 105.06, 105.04];
        var sensitivity = o[2] - o[1] - 0.01;
        var drift = LinearDrift.Of([new(0, 1, o[0]), new(1, 2, o[1]), new(1, 3, o[2] - sensitivity), new(0, 4, o[3] - sensitivity)]);
        Assert.Equal((o[1] - o[0] + o[2] - o[3]) / 2, drift.Difference(1, 0), 10);
        Assert.Equal(0.03, drift.Difference(1, 0), 10);
        Assert.Equal(0.01, drift.PerSecond, 10);
    }

    [Fact]
    public void A_load_between_two_zeros_is_the_load_less_their_mean()
    {
        // By hand: 28.47 - (0.03 + 0.09) / 2 = 28.41.
        var drift = LinearDrift.Of([new(0, 0, 0.03), new(1, 10, 28.47), new(0, 20, 0.09)]);
        Assert.Equal(28.41, drift.Difference(1, 0), 10);
        Assert.True(double.IsNaN(drift.ResidualDeviation));
    }

    [Fact]
    public void A_load_weighed_soon_after_the_first_zero_takes_little_of_the_drift()
    {
        // A quarter of the way: the zero was at 0.03 + 0.06 / 4 = 0.045.
        Assert.Equal(28.425, LinearDrift.Of([new(0, 0, 0.03), new(1, 5, 28.47), new(0, 20, 0.09)]).Difference(1, 0), 10);
    }

    [Fact]
    public void One_weighing_of_each_shows_no_drift()
    {
        var refusal = Assert.Throws<ArgumentException>(() => LinearDrift.Of([new(0, 0, 0.03), new(1, 10, 28.47)]));
        Assert.Contains("twice", refusal.Message, StringComparison.Ordinal);
    }

    private static LinearDrift Fit() => LinearDrift.Of([.. Circular.Select((reading, i) => new Compared(i % 4, i, reading))]);
}
