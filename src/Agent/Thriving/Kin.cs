namespace CaptureAgent.Agent.Thriving;

/// <summary>What the chicks of one species (or of one clutch, where the register names no species) say together of the courses of growth.</summary>
/// <remarks>
/// The distribution of courses among the kin is the mean of what each chick's own weights say, drawn to the prior as if some more chicks said that
/// (empirical Bayes). A chick's own share is left out of what it is told.
/// </remarks>
internal sealed class Kin(double[] prior)
{
    /// <summary>The prior counts as so many chicks.</summary>
    private const double PriorChicks = 1;

    private readonly double[] sum = new double[prior.Length];
    private int chicks;

    /// <param name="share">Of one chick, by row.</param>
    public void Add(ReadOnlySpan<(int Row, double Share)> shares)
    {
        chicks++;
        foreach (var (row, share) in shares)
            sum[row] += share;
    }

    /// <summary>Of a row, by the prior alone.</summary>
    public double Prior(int row) => prior[row];

    /// <summary>How much likelier a course is than by the prior.</summary>
    /// <param name="own">What the chick itself said of it; null: it said nothing yet.</param>
    public double Factor(int row, double? own)
    {
        var others = own is null ? chicks : chicks - 1;
        return (PriorChicks + Math.Max(sum[row] - (own ?? 0), 0) / prior[row]) / (PriorChicks + others);
    }
}
