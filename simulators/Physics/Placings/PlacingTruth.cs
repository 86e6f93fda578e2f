namespace CaptureAgent.Simulators.Physics.Placings;

/// <summary>What a judge of a placing knows and no station does.</summary>
/// <param name="Load">The chick.</param>
/// <param name="NetGrams">Its mass as it was placed, less what of it could not count: the right answer.</param>
/// <param name="HandsOffAt">Nobody has touched it from here on; not a number where no hand ever left it.</param>
/// <param name="HandsBackAt">Until here.</param>
/// <param name="MustRecord">Whether an accepted weight is due; if not, accepting one is an error.</param>
/// <param name="MayRecord">Whether an accepted weight within the band is no error even where none is due.</param>
public sealed record PlacingTruth(string Load, double NetGrams, double HandsOffAt, double HandsBackAt, bool MustRecord, bool MayRecord)
{
    /// <summary>The largest difference from the truth that counts as right: the greater of one division and 0.3 %.</summary>
    public double Band(decimal divisionGrams) => Math.Max((double)divisionGrams, 0.003 * NetGrams);
}
