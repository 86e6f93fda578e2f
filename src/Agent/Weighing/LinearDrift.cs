namespace CaptureAgent.Agent.Weighing;

/// <summary>One weighing of a comparison.</summary>
/// <param name="Item">Which of the things compared lay on the pan, counted from 0.</param>
internal readonly record struct Compared(int Item, double Seconds, double Grams);

/// <summary>Things weighed by turns on one scale whose zero drifts: what each weighs beside the others once a straight-line drift is taken out.</summary>
/// <remarks>
/// Least squares with a level for each item and one slope for all. For A B A at even times it is B less the mean of the A's; for A B B A it is the mean of the two
/// differences, as in double substitution (NIST SOP 4, NISTIR 6969); uneven times and longer series weigh as they should
/// (Sutton and Clarkson 1993, "A general approach to comparisons in the presence of drift", Metrologia 30, 487).
/// </remarks>
internal readonly struct LinearDrift
{
    private readonly Level[] levels;

    private LinearDrift(Level[] levels, double perSecond, double residual) => (this.levels, PerSecond, ResidualDeviation) = (levels, perSecond, residual);

    /// <summary>Grams a second.</summary>
    public double PerSecond { get; }

    /// <summary>Standard deviation of a single weighing about the fit, in grams; not a number where no degree of freedom is left.</summary>
    public double ResidualDeviation { get; }

    /// <param name="weighings">Every item at least once, and one of them twice at different moments.</param>
    /// <exception cref="ArgumentException">There is nothing that shows the drift.</exception>
    public static LinearDrift Of(ReadOnlySpan<Compared> weighings)
    {
        var levels = Levels(weighings);
        double together = 0, spread = 0;
        foreach (var (item, seconds, grams) in weighings)
        {
            together += (seconds - levels[item].Seconds) * (grams - levels[item].Grams);
            spread += (seconds - levels[item].Seconds) * (seconds - levels[item].Seconds);
        }

        if (!(spread > 0))
            throw new ArgumentException("No item was weighed twice at different moments: its drift cannot be told.", nameof(weighings));
        var slope = together / spread;
        double squares = 0;
        foreach (var (item, seconds, grams) in weighings)
        {
            var residual = grams - levels[item].Grams - slope * (seconds - levels[item].Seconds);
            squares += residual * residual;
        }

        var freedom = weighings.Length - levels.Length - 1;
        return new LinearDrift(levels, slope, freedom > 0 ? Math.Sqrt(squares / freedom) : double.NaN);
    }

    /// <summary>What one item weighs more than another, in grams, both at the same moment.</summary>
    public double Difference(int item, int other) =>
        levels[item].Grams - levels[other].Grams - PerSecond * (levels[item].Seconds - levels[other].Seconds);

    // Mean moment and mean reading of each item.
    private static Level[] Levels(ReadOnlySpan<Compared> weighings)
    {
        var count = 0;
        foreach (var one in weighings)
            count = Math.Max(count, one.Item + 1);
        var sums = new Level[count];
        var times = new int[count];
        foreach (var (item, seconds, grams) in weighings)
        {
            sums[item] = new Level(sums[item].Seconds + seconds, sums[item].Grams + grams);
            times[item]++;
        }

        for (var i = 0; i < count; i++)
            sums[i] = new Level(sums[i].Seconds / times[i], sums[i].Grams / times[i]);
        return sums;
    }

    private readonly record struct Level(double Seconds, double Grams);
}
