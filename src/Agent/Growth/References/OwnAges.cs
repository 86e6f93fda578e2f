using System.Globalization;

namespace CaptureAgent.Agent.Growth.References;

/// <summary>The ages that a nursery's own weights support, and how many chicks each rests on.</summary>
/// <remarks>
/// Beyond them a fit runs back to what is presumed, by way of whatever the smoothing has left over: a rise after weaning that no weight
/// has shown. One chick that stayed longer than the others would carry a median by itself, with its own size in it: from nine chicks on, three
/// are asked for, of fewer a quarter. That number is a choice, no source.
/// </remarks>
internal sealed class OwnAges
{
    private const int FewestChicks = 3;
    private const int OneIn = 4;

    private readonly List<ReferenceWeight[]> chicks;

    /// <param name="chicks">The weights of each chick, by rising age; at least one chick, and of each at least one weight.</param>
    public OwnAges(IEnumerable<ReferenceWeight[]> chicks)
    {
        this.chicks = [.. chicks];
        var asked = Math.Min(FewestChicks, (this.chicks.Count + OneIn - 1) / OneIn);
        First = (int)Math.Ceiling(this.chicks.Select(weights => weights[0].AgeDays).Order().ElementAt(asked - 1));
        Last = (int)Math.Floor(this.chicks.Select(weights => weights[^1].AgeDays).OrderDescending().ElementAt(asked - 1));
    }

    /// <summary>Day of age.</summary>
    public int First { get; }

    /// <summary>Day of age.</summary>
    public int Last { get; }

    public bool Supports(double ageDays) => ageDays >= First && ageDays <= Last;

    /// <summary>How much is borrowed from what is presumed, in words; with the day where it is least and that where it is most.</summary>
    public string Borrowed(ReferencePrior prior)
    {
        // Each chick's worth against what is presumed.
        var spread = prior.Spread / prior.Doubt;
        var shares = Enumerable.Range(First, Last - First + 1).Select(day => (Day: day, Percent: 100 * spread * spread / (ChicksAbout(day) + spread * spread))).ToList();
        var (least, most) = (shares.MinBy(share => share.Percent), shares.MaxBy(share => share.Percent));
        var (low, high) = (Percent(least.Percent), Percent(most.Percent));
        return low == high ? low : string.Create(CultureInfo.InvariantCulture, $"{low} (day {least.Day}) to {high} (day {most.Day})");
    }

    // Chicks with a weight that counts at the age: the fit sees it as far as the weights of one chick count as one.
    private int ChicksAbout(int day) => chicks.Count(weights => weights.Any(weight => Math.Abs(weight.AgeDays - day) <= LmsFit.WindowDays / 2));

    private static string Percent(double percent) => percent.ToString("0", CultureInfo.InvariantCulture) + " %";
}
