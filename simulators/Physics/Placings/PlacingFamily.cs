namespace CaptureAgent.Simulators.Physics.Placings;

/// <summary>A kind of placing, of which any number can be drawn.</summary>
/// <param name="Name">In results.</param>
/// <param name="Weight">How often it comes, beside the others.</param>
/// <param name="MustRecord">Whether an accepted weight is due.</param>
/// <param name="MayRecord">Whether an accepted weight within the band is no error.</param>
/// <param name="Write">Writes one script.</param>
public sealed record PlacingFamily(string Name, double Weight, bool MustRecord, bool MayRecord, Func<SeededRandom, PlacingDraft> Write)
{
    /// <summary>The placing of a seed: the same seed, the same placing.</summary>
    public Placing Draw(ulong seed)
    {
        var random = new SeededRandom(seed);
        return Write(random).Build(Name, random.NextUInt64(), MustRecord, MayRecord);
    }
}
